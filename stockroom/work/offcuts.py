"""What a piece has from the one it was cut from."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime

from stockroom.books.pen import Pen
from stockroom.books.values import Material, MoveDraft, Piece
from stockroom.codes.own import Letter
from stockroom.work.windings import ended

Sizes = Sequence[tuple[int, int]]
CUT_UP = "cut up"

_INHERITED = (
    "material_id",
    "lot",
    "owner",
    "thickness_nm",
    "made",
    "shipped",
    "received",
    "printed",
    "printed_by",
    "ink",
    "artwork",
    "tile",
    "is_laminated",
    "laminate_lot",
    "layers",
    "is_wound",
    "winding",
    "wound_since",
    "wound_days_before",
    "shelf_passed",
    "wound_passed",
    "curl_at_nm",
    "place_id",
    "held",
    "job_id",
)
_KEPT_BY_A_REST = ("core_inside_nm", "core_wall_nm", "in_tube", "windings", "flaws")


def born_of(piece: Piece, across_nm: int, value_minor: int | None) -> Mapping[str, object]:
    """What an offcut is born with: everything of its parent but size, value, core and windings."""
    return {
        **_of(piece, _INHERITED),
        "form": "offcut",
        "width_nm": across_nm,
        "cost_minor": value_minor,
        "parent": piece.code,
    }


def rest_of(
    pen: Pen, piece: Piece, material: Material, along_nm: int
) -> tuple[tuple[int, int], ...]:
    """What stays of an offcut that is cut: a size worth keeping, or nothing; a roll stays itself."""
    across_nm = piece.state.width_nm or 0
    if (
        piece.state.form == "offcut"
        and along_nm
        and pen.shop.house.keeps(material.kind, across_nm, along_nm)
    ):
        return ((across_nm, along_nm),)
    return ()


def kept(
    pen: Pen, piece: Piece, sizes: Sizes, values: Sequence[int | None], at: datetime
) -> Iterator[MoveDraft]:
    """The parts that were cut out: each gets a code of its own, and keeps the wraps it was cut at."""
    for size, value in zip(sizes, values, strict=True):
        outer_nm = max(piece.state.balance, size[1])  # a cut may be the count that finds more
        sets = {
            **born_of(piece, size[0], value),
            "windings": ended(piece.state, at, left_nm=outer_nm, inner_nm=outer_nm - size[1]),
        }
        yield _keep(pen, size[1], sets)


def kept_rest(
    pen: Pen, piece: Piece, rest: Sizes, values: Sequence[int | None]
) -> Iterator[MoveDraft]:
    """What stays of an offcut gets a new code too; it is the core end, wound as it was."""
    for size, value in zip(rest, values, strict=True):
        sets = {**born_of(piece, size[0], value), **_of(piece, _KEPT_BY_A_REST)}
        yield _keep(pen, size[1], sets)


def _keep(pen: Pen, along_nm: int, sets: Mapping[str, object]) -> MoveDraft:
    return MoveDraft(code=pen.new_code(Letter.OFFCUT), kind="keep", delta=along_nm, sets=sets)


def _of(piece: Piece, names: tuple[str, ...]) -> dict[str, object]:
    return {name: getattr(piece.state, name) for name in names}
