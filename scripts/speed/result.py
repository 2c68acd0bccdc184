"""What was measured, as a table that can be copied into a document."""

import os
import platform
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from time import perf_counter

_HEADS = ("what", "ours", "beside", "ratio", "aim", "")


@dataclass(frozen=True, slots=True)
class Result:
    """Two times side by side, or one alone; `most` is the aim for the ratio, or for the time."""

    what: str
    ours_s: float
    beside_s: float | None
    most: float

    @property
    def ratio(self) -> float | None:
        """How many times as long ours takes."""
        return None if self.beside_s is None else self.ours_s / self.beside_s

    @property
    def is_met(self) -> bool:
        """Whether the aim was met."""
        return (self.ours_s if self.ratio is None else self.ratio) <= self.most

    def cells(self) -> Iterator[str]:
        """Its line of the table."""
        yield self.what
        yield _time(self.ours_s)
        yield "" if self.beside_s is None else _time(self.beside_s)
        yield "" if self.ratio is None else f"{self.ratio:.2f}"
        yield f"≤ {self.most:g}" + (" s" if self.ratio is None else "")
        yield "ok" if self.is_met else "missed"


@dataclass(frozen=True, slots=True)
class Growth(Result):
    """How a time grows with the size: the exponent is in the place of the ratio."""

    exponent: float

    @property
    def ratio(self) -> float:
        """The exponent."""
        return self.exponent


@dataclass(frozen=True, slots=True)
class Memory(Result):
    """The most memory that was taken, in MiB in the place of seconds."""

    def cells(self) -> Iterator[str]:
        """Its line of the table."""
        state = "ok" if self.is_met else "missed"
        yield from (self.what, f"{self.ours_s:.0f} MiB", "", "", f"≤ {self.most:g} MiB", state)


class Gap(Result):
    """How far above the best that is known, in per cent or in number, in the place of seconds."""

    @property
    def ratio(self) -> None:
        """None: the aim is for the gap itself."""
        return

    def cells(self) -> Iterator[str]:
        """Its line of the table."""
        beside = "" if self.beside_s is None else f"{self.beside_s:.1f}"
        state = "ok" if self.is_met else "missed"
        yield from (self.what, f"{self.ours_s:.1f}", beside, "", f"≤ {self.most:g}", state)


class Part(Result):
    """A share in per cent that is to be no more than a part of the one beside it."""

    def cells(self) -> Iterator[str]:
        """Its line of the table."""
        state = "ok" if self.is_met else "missed"
        beside, ratio = f"{self.beside_s or 0:.1f}", f"{self.ratio or 0:.2f}"
        yield from (self.what, f"{self.ours_s:.1f}", beside, ratio, f"≤ {self.most:g}", state)


def timed(act: Callable[[], object]) -> float:
    """How long it takes, once; what comes of it is let go afterwards."""
    began = perf_counter()
    made = act()
    took = perf_counter() - began
    del made
    return took


def undisturbed(times: Iterable[float]) -> float:
    """The time that one in ten stays below: what is above it, other programs may have taken."""
    known = sorted(times)
    return known[len(known) // 10]


def table(results: Iterable[Result]) -> Iterator[str]:
    """The results line by line, in columns."""
    lines = [_HEADS, *(tuple(result.cells()) for result in results)]
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    for what, *cells in lines:
        shown = (cell.rjust(width) for cell, width in zip(cells, widths[1:], strict=True))
        yield f"{what.ljust(widths[0])}  {'  '.join(shown)}".rstrip()


def machine() -> str:
    """How big the machine is that measured."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    python = platform.python_version()
    return f"{os.cpu_count()} cores, {memory:.0f} GiB, Python {python}, {sys.platform}"


def _time(seconds: float) -> str:
    return f"{seconds:.2f} s" if seconds >= 1 else f"{seconds * 1_000:.3g} ms"
