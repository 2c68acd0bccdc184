"""What an offcut has from the piece it was cut from."""

from collections.abc import Mapping

from stockroom.books.values import Piece

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
    "is_laminated",
    "is_wound",
    "wound_since",
    "wound_days_before",
    "shelf_passed",
    "wound_passed",
    "place_id",
    "job_id",
)


def born_of(piece: Piece, across_nm: int, value_minor: int | None) -> Mapping[str, object]:
    """What an offcut is born with: everything of its parent but size, core and value."""
    return {
        **{name: getattr(piece.state, name) for name in _INHERITED},
        "form": "offcut",
        "width_nm": across_nm,
        "cost_minor": value_minor,
        "parent": piece.code,
    }
