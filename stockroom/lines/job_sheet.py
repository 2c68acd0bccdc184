"""What stands on the sheet of a job: panels with their trims, films with their cuts, cautions."""

from collections.abc import Iterable, Mapping

from stockroom.books.values import Shop, Standing
from stockroom.labels.job_sheet import FilmDrawing, JobSheet, Knife, Rectangle
from stockroom.lines import words
from stockroom.lines.cautions import at_job, lifting
from stockroom.lines.panels import PANELS_OF, remarks, trim
from stockroom.plan.cuts import Way, cuts
from stockroom.units import MM
from stockroom.units.shown import show_length, show_size, show_width
from stockroom.work.look import lifted_kg
from stockroom.work.panels import Covering
from stockroom.work.planned import PlannedCut
from stockroom.work.wanted import panel_of, trims_of, within


def sheet_of(
    found: Covering,
    planned: Iterable[PlannedCut],
    standing: Mapping[str, Standing],
    materials: Mapping[int, str],
    shop: Shop,
) -> JobSheet:
    """The sheet of a job with the film that is reserved for it."""
    job, system = found.job, shop.system
    heavy = [lifting(lifted_kg(one), one.state.width_nm) for one in standing.values()]
    facts = (
        f"{shop.name}   {job.kind}{f', {job.glass} glass' if job.glass else ''}",
        f"site {words.known(job.site)}   on {words.known(job.on_day)}",
        job.note,
    )
    return JobSheet(
        code=job.code,
        title=job.name,
        facts=tuple(fact for fact in facts if fact),
        heads=(PANELS_OF.get(job.kind, "panel"), "covers", "trim", "film", "n", "", "up"),
        shares=(22, 34, 16, 46, 10, 38, 10),
        rows=tuple(
            (
                one.name,
                show_size(one.width_nm, one.height_nm, system),
                trim(one, system),
                materials[one.material_id],
                str(one.number * one.layers),
                remarks(one),
                "[  ]",
            )
            for one in found.panels
        ),
        cautions=(*dict.fromkeys(one for one in heavy if one), *at_job(job.kind)),
        films=tuple(_film(cut, standing[cut.piece], found, shop) for cut in planned),
    )


def _film(cut: PlannedCut, standing: Standing, found: Covering, shop: Shop) -> FilmDrawing:
    system = shop.system
    laid = (*cut.laid, *(("keep", *one) for one in cut.kept))
    spots = [(number, *one[1:]) for number, one in enumerate(laid)]
    parted = cuts(spots, cut.width_nm, cut.length_nm) or ()
    where = words.place(standing.place)
    return FilmDrawing(
        code=cut.piece,
        title=f"{show_length(cut.length_nm, system)} of {standing.material.name}, {where}",
        width=cut.width_nm / MM,
        length=cut.length_nm / MM,
        laid=tuple(
            Rectangle(
                name,
                show_size(across, along, system),
                *(x / MM, y / MM, across / MM, along / MM),
                inside=_inside(found, name, (across, along), shop),
            )
            for name, x, y, across, along in laid
        ),
        cuts=tuple(
            Knife(
                one.number,
                one.way is Way.ACROSS,
                one.at / MM,
                one.begins / MM,
                one.ends / MM,
                f"{one.way.value} at {show_width(one.at, system)}",
            )
            for one in parted
        ),
    )


def _inside(
    found: Covering, name: str, size: tuple[int, int], shop: Shop
) -> tuple[float, float, float, float] | None:
    """Where the panel lies in what is cut for it, in mm; nothing of what is no panel."""
    panel = next((one for one in found.panels if one.name == panel_of(name)), None)
    if panel is None:
        return None
    trims = trims_of(panel, shop.house, found.job.kind)
    x, y, wide, long = within(panel, name, size, trims)
    return x / MM, y / MM, wide / MM, long / MM
