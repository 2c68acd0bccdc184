"""What ordinary work takes from: one open piece of each material, and a delivery when there is none.

Whatever is taken is remembered here, so that no row asks for more than there is.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import time
from random import Random
from typing import Any

from stockroom.demo.line import Row, Written
from stockroom.units import MM
from stockroom.units.typed import parse_length

Usual = Mapping[str, Any]

LEADER_MM = 300
"""What the printer takes before a print."""
_BETWEEN = 6
"""Minutes between two acts of a day, at least, for an undo must find what it undoes."""
_END_MM, _BARE_MM = 1_500, 300
"""A cut that would leave less than the one takes the end along; the other is what the books still have."""
_WAYS = ("length", "round", "outside", "mass")


@dataclass(frozen=True, slots=True, order=True)
class Step:
    """What is to be done for a job on a day, in the order in which it happens."""

    day: int
    minute: int
    act: str
    row: Row = field(compare=False)
    material: str = field(compare=False, default="")
    amount: int = field(compare=False, default=0)
    """Millimetres of film, or a number of goods."""


@dataclass(slots=True)
class Shelf:
    """The piece of each material that is begun, those beside it that are not, and what each holds."""

    usual: Usual
    chance: Random
    _left: dict[str, int] = field(default_factory=dict[str, int])
    _whole: dict[str, list[str]] = field(default_factory=dict[str, list[str]])
    _begun: dict[str, str] = field(default_factory=dict[str, str])
    _names: int = 0
    _last: tuple[int, int] = (0, 0)
    """The day and minute of the row before."""

    def done(self, step: Step) -> Iterator[Written]:
        """The rows of one step, and of what it brings about."""
        match step.act:
            case "cut":
                yield from self._cut(step)
            case "take":
                yield from self._taken(step)
            case "print":
                yield from self._printed(step)
            case "laminate":
                yield from self._laminated(step)
            case "put up":
                yield self._row(step, "cut", step.row)
            case _:
                yield self._row(step, step.act, step.row)

    def _cut(self, step: Step) -> Iterator[Written]:
        """A cut for a job, and what goes wrong beside it; the end of a roll is taken along."""
        yield from self._at_hand(step, step.amount)
        roll = self._begun[step.material]
        row = {**step.row, "piece": roll}
        if self._left[roll] < step.amount + 2 * _END_MM:
            yield self._row(step, "cut", {**row, "amount": f"{self._left[roll] - _BARE_MM}mm"})
            yield self._row(step, "finished", {"by": row["by"], "piece": roll})
            del self._begun[step.material]
            return
        yield from self._mistakes(step, row)
        self._left[roll] -= step.amount
        cut = {**row, "amount": f"{step.amount}mm"}
        if step.amount > 2 * _END_MM and self._happens("keeps_an_offcut"):
            yield from self._kept(step, cut)
        else:
            yield self._row(step, "cut", cut)
        yield from self._afterwards(step, row)

    def _kept(self, step: Step, cut: Row) -> Iterator[Written]:
        """A cut of which a part is kept, and put where offcuts stand."""
        across, along = (self.chance.randrange(*ends, 50) for ends in ((400, 900), (1_000, 1_900)))
        name = self._name("offcut")
        yield self._row(step, "cut", {**cut, "makes": f"{name}={across}x{along}"})
        yield self._row(step, "put", {"by": cut["by"], "piece": name, "for": self.usual["offcuts"]})

    def _mistakes(self, step: Step, row: Row) -> Iterator[Written]:
        """Film that is spoiled before, and a length that is typed wrong and undone."""
        if self._happens("is_spoiled"):
            self._left[row["piece"]] -= 600
            yield self._row(step, "cut", {**row, "amount": "600mm", "for": "spoiled"})
        if self._happens("is_typed_wrong"):
            yield self._row(step, "cut", {**row, "amount": f"{step.amount + 1_000}mm"})
            yield self._row(step, "undo", {**row, "note": "typed a metre too much"})

    def _afterwards(self, step: Step, row: Row) -> Iterator[Written]:
        """Film that comes back, and a count."""
        if self._happens("comes_back"):
            back_mm = self.chance.randrange(300, 900, 50)
            self._left[row["piece"]] += back_mm
            yield self._row(step, "back", {**row, "amount": f"{back_mm}mm"})
        if self._happens("is_counted"):
            way = self.chance.choice(_WAYS)
            off_mm = self.chance.randrange(0, 300, 50) if way == "length" else 0
            self._left[row["piece"]] -= off_mm
            counted = {**row, "for": "", "amount": f"-{off_mm}mm", "more": f"by={way}"}
            yield self._row(step, "count", counted)

    def _taken(self, step: Step) -> Iterator[Written]:
        """Goods out of a box; the last ones are taken together, and the box is empty."""
        yield from self._at_hand(step, step.amount)
        box = self._begun[step.material]
        is_last = self._left[box] < 2 * step.amount
        number = self._left[box] if is_last else step.amount
        self._left[box] -= number
        yield self._row(step, "take", {**step.row, "piece": box, "amount": str(number)})
        if is_last:
            del self._begun[step.material]
            yield self._row(step, "finished", {"by": step.row["by"], "piece": box})

    def _printed(self, step: Step) -> Iterator[Written]:
        yield from self._at_hand(step, step.amount + LEADER_MM)
        roll = self._begun[step.material]
        self._left[roll] -= step.amount + LEADER_MM
        yield self._row(step, "print", {**step.row, "piece": roll, "amount": f"{step.amount}mm"})

    def _laminated(self, step: Step) -> Iterator[Written]:
        yield from self._at_hand(step, step.amount)
        roll = self._begun[step.material]
        self._left[roll] -= step.amount
        more = f"over={roll}; core=152.4mm"
        yield self._row(step, "laminate", {**step.row, "for": "", "amount": "all", "more": more})

    def _at_hand(self, step: Step, amount: int) -> Iterator[Written]:
        """Begin another piece where the one in use is too short, and buy where none is left."""
        begun = self._begun.get(step.material)
        if begun is not None and self._left[begun] >= amount:
            return
        whole = self._whole.setdefault(step.material, [])
        if not whole:
            yield self._came_in(step, whole)
        self._begun[step.material] = whole.pop(0)

    def _came_in(self, step: Step, whole: list[str]) -> Written:
        bought = self.usual["bought"][step.material]
        amount: str = bought["amount"]
        is_film = not amount.isdecimal()
        for _ in range(bought["pieces"]):
            name = self._name("piece")
            whole.append(name)
            self._left[name] = parse_length(amount) // MM if is_film else int(amount)
        days_old = -step.day * 7 // 5 + self.chance.randrange(40, 120)
        row = {
            "by": self.usual["buyer"],
            "piece": " ".join(whole),
            "material": step.material,
            "pieces": str(len(whole)),
            "amount": amount,
            "made": f"{days_old}d" if is_film else "",
            "lot": f"{bought['lot']}{self.chance.randrange(100, 1_000)}" if is_film else "",
            "place": bought["place"],
        }
        return self._row(step, "receive", row)

    def _name(self, what: str) -> str:
        self._names += 1
        return f"usual-{what}-{self._names}"

    def _row(self, step: Step, act: str, row: Row) -> Written:
        day, minute = self._last
        minute = max(step.minute, minute + _BETWEEN) if step.day == day else step.minute
        self._last = step.day, minute
        return str(step.day), time(*divmod(minute, 60)), act, row

    def _happens(self, what: str) -> bool:
        in_a_hundred: int = self.usual["chances"][what]
        return self.chance.randrange(100) < in_a_hundred
