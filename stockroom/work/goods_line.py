"""One line of goods that come in, as far as somebody has typed it."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from stockroom.books.values import Asked, Material
from stockroom.errors import Code, Refusal
from stockroom.work.receive import OURS, Receive


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """So many pieces of one kind, and the order they came of; each field None until it is typed.

    The others are those of a `Receive`.
    """

    material: str | None = None
    length_nm: int | None = None
    number: int | None = None
    pieces: int = 1
    lot: str | None = None
    width_nm: int | None = None
    core_inside_nm: int | None = None
    core_wall_nm: int | None = None
    cost_minor: int | None = None
    made: str | None = None
    shipped: str | None = None
    received: str | None = None
    printed: str | None = None
    ink: str | None = None
    place: str | None = None
    job: str | None = None
    owner: str = OURS
    damaged: str | None = None
    order: str | None = None
    """The order it came of, and the number of its line."""
    order_line: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A line, what it cannot be received without, and what stays unknown if nobody types it."""

    line: Line
    material: Material | None
    needed: tuple[str, ...]
    unknown: tuple[str, ...]


def typed(line: Line, materials: Mapping[int, Material]) -> Typed:
    """What is missing of a line; what its material says is not."""
    material = next((one for one in materials.values() if one.name == line.material), None)
    if material is None:
        return Typed(line=line, material=None, needed=("material",), unknown=())
    needed: dict[str, object] = {"number": line.number}
    unknown: dict[str, object] = {"lot": line.lot, "place": line.place}
    if material.kind.comes_in_rolls:
        needed = {"length": line.length_nm, "width": line.width_nm or material.width_nm}
        unknown["core"] = line.core_inside_nm or material.core_inside_nm
    if material.counted_from != "received":  # the day it is received, unless another is typed
        unknown[material.counted_from] = getattr(line, material.counted_from)
    if line.owner == OURS:
        unknown["price"] = material.cost_minor if line.cost_minor is None else line.cost_minor
    return Typed(
        line=line,
        material=material,
        needed=tuple(name for name, value in needed.items() if value is None),
        unknown=tuple(name for name, value in unknown.items() if value is None),
    )


def complete(one: Typed, asked: Asked) -> Receive:
    """A line as a request of its own; one that lacks something is refused."""
    if one.needed:
        raise Refusal(
            Code.UNKNOWN_SIZE,
            f"{' and '.join(one.needed)} not known yet: fill in what is missing, or drop the line.",
        )
    given: dict[str, Any] = asdict(one.line)
    del given["order"], given["order_line"]
    return Receive(request=asked.request, operator=asked.operator, at=asked.at, **given)
