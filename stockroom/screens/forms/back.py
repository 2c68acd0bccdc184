"""What a job did not use comes back."""

from collections.abc import Mapping

from stockroom.codes.own import grouped
from stockroom.lines import bench as typed
from stockroom.lines import text_done
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.forms.on_card import OnCard
from stockroom.units.shown import show_size
from stockroom.units.typed import parse_count
from stockroom.work.back import Back, back


def back_blank(on: OnCard) -> Blank:
    """What comes back, and from which job?"""
    station, asking = on.station, on.station.asking()
    drawn_by = next((act.job for act in on.card.acts if act.job and not act.is_reversed), None)

    def write(said: Mapping[str, str]) -> str:
        with mending("job"):
            job = on.job_code(said["job"])
        with mending("amount"):
            amount, size = _coming_back(said["amount"], on)
        request = Back(**asking, piece=on.code, job=job, amount=amount, size=size)
        found = back(request, book=station.book, now=station.now())
        shown = show_size(*size, on.shop.system) if size else ""
        return " · ".join(text_done.came_back(found, on.shop, shown))

    hint = "a number" if on.form == "box" else "0.4m, or 300x1000 of a part cut off already"
    return Blank(
        title=f"Back on {grouped(on.code)}",
        fields=(Field(name="amount", hint=hint), on.job_field(drawn_by or "")),
        write=write,
        beside=on.jobs_said(),
    )


def _coming_back(text: str, on: OnCard) -> tuple[int | None, tuple[int, int] | None]:
    if on.form == "box":
        return parse_count(text), None
    if "x" in text.casefold() or "\N{MULTIPLICATION SIGN}" in text:
        return None, typed.size(text, on.shop.system)
    return typed.length(text, on.shop.system), None
