"""Sums over the readings of each zone: stored in parts, and made again where a part is missing.

Only full parts are stored, one after the other from the beginning. What is written late, or a
sensor that is moved, drops the parts from there on; dropping them all loses nothing but time.
"""

from collections.abc import Collection, Iterable, Mapping

from sqlalchemy import Connection

from stockroom.books.opening import Book
from stockroom.books.parts import Ends, Parts, Readings, part_counts
from stockroom.books.readings import ALL_TIME, count_levels, zone_levels
from stockroom.books.sensors import Stand, lock_sensors, sensor_entries, stands
from stockroom.errors import Exit, Refusal
from stockroom.film.chain import Chain, Link
from stockroom.film.course import Course, course, measured
from stockroom.film.exposure import History
from stockroom.film.heat import REFERENCE_C
from stockroom.film.marked import marked
from stockroom.film.sums import Quantity, Sum, ageing

PART = 4_096
"""The readings of a stored part, beside its first one, which is the last one of the part before."""

_AT_ONCE = 16
"""The parts that are made in one transaction, so that nobody waits long for it."""

Wanted = Mapping[str, Collection[Sum]]
"""What is to be summed over each zone, by its key."""


class _Series:
    """The readings of one quantity of a zone in parts: the stored ones, and the rest, read now."""

    def __init__(
        self, parts: Parts, quantity: Quantity, ends: list[Ends], rest: list[Readings]
    ) -> None:
        self._parts = parts
        self._quantity = quantity
        self._stored = len(ends)
        self._read = dict(enumerate(rest, start=len(ends)))
        self.ends = [*ends, *(readings.ends for readings in rest)]

    @property
    def full(self) -> int:
        """How many parts no later reading will belong to."""
        last = self._read.get(len(self.ends) - 1)
        return len(self.ends) - (last is not None and len(last.at_s) <= PART)

    def readings(self, part: int) -> Readings:
        """The readings of a part."""
        if part not in self._read:
            self._read[part] = self._parts.readings(self._quantity, part)
        return self._read[part]

    def store(self) -> None:
        """Store the full parts that are not stored."""
        for part in range(self._stored, self.full):
            self._parts.put_readings(self._quantity, part, self.readings(part))


class _Summed:
    """One thing summed over a series, part by part: stored, or made when it is asked for."""

    def __init__(self, parts: Parts, gap_s: int, series: _Series, of: Sum) -> None:
        self._parts = parts
        self._gap_s = gap_s
        self._series = series
        self._of = of
        self._made: dict[int, Course] = {}
        pairs = enumerate(zip(parts.ends(of.name), series.ends, strict=False))
        self._stored = {part: one for part, (one, other) in pairs if one[:2] == other[:2]}

    def chain(self) -> Chain:
        """All parts as one course; those that are not stored are made now."""
        links = [
            Link(ends.first_s, ends.last_s, self._amount(part), int(ends.amount))
            for part, ends in enumerate(self._series.ends)
        ]
        return Chain(links, self._course)

    def store(self) -> None:
        """Store the full parts that are not stored, some of them at once."""
        missing = [part for part in range(self._series.full) if part not in self._stored]
        for part in missing[:_AT_ONCE]:
            amounts = self._course(part).amounts
            self._parts.put_amounts(self._of.name, part, self._series.ends[part], amounts)

    def _amount(self, part: int) -> float:
        stored = self._stored.get(part)
        return self._course(part).amounts[-1] if stored is None else stored.amount

    def _course(self, part: int) -> Course:
        known = self._made.get(part)
        if known is None:
            is_stored = part in self._stored
            known = self._made[part] = self._fetched(part) if is_stored else self._summed(part)
        return known

    def _summed(self, part: int) -> Course:
        readings = self._series.readings(part)
        levels = self._of.levels(readings.levels)
        return course(readings.at_s, levels, self._of.measure, self._gap_s)

    def _fetched(self, part: int) -> Course:
        readings = self._series.readings(part)
        return marked(
            at_s=readings.at_s,
            levels=self._of.levels(readings.levels),
            known=self._parts.amounts(self._of.name, part),
            measured_s=readings.measured_s,
            measure=self._of.measure,
            longest_gap_s=self._gap_s,
        )


class Courses:
    """What is summed over the readings of the zones of a book, while a connection is open.

    Readings further apart than the gap tell nothing of the time between them.
    """

    def __init__(
        self,
        connection: Connection,
        gap_s: int,
        *,
        most: int = ALL_TIME.stop,
        spoken_for: Mapping[str, tuple[Stand, ...]] | None = None,
    ) -> None:
        self._connection = connection
        self._gap_s = gap_s
        self._most = most
        self._spoken_for = stands(sensor_entries(connection)) if spoken_for is None else spoken_for
        self._series: dict[tuple[str, Quantity], _Series] = {}
        self._chains: dict[tuple[str, str], Chain] = {}
        self._parts: dict[str, Parts] = {}
        self._histories: dict[tuple[str, float], History] = {}

    def of(self, zone: str, of: Sum) -> Chain:
        """One sum over one zone, by its key; a zone nobody measured tells nothing."""
        key = (zone, of.name)
        if key not in self._chains:
            self._chains[key] = self._summed(zone, of).chain()
        return self._chains[key]

    def ageing(self, zone: str, energy_kj: float) -> History:
        """How a zone aged film, for an activation energy in kJ/mol."""
        key = (zone, energy_kj)
        if key not in self._histories:
            rates = self.of(zone, ageing(energy_kj))
            self._histories[key] = History(
                rates=rates, energy_kj=energy_kj, reference_c=REFERENCE_C
            )
        return self._histories[key]

    def store(self, zone: str, sums: Iterable[Sum]) -> None:
        """Store what full parts of a zone are missing, some of them at once."""
        for of in sums:
            self._series_of(zone, of.of).store()
            self._summed(zone, of).store()

    def _summed(self, zone: str, of: Sum) -> _Summed:
        return _Summed(self._parts_of(zone), self._gap_s, self._series_of(zone, of.of), of)

    def _parts_of(self, zone: str) -> Parts:
        if zone not in self._parts:
            self._parts[zone] = Parts(self._connection, zone, self._gap_s)
        return self._parts[zone]

    def _series_of(self, zone: str, quantity: Quantity) -> _Series:
        key = (zone, quantity)
        if key not in self._series:
            parts = self._parts_of(zone)
            ends = parts.ends(quantity)
            self._series[key] = _Series(parts, quantity, ends, self._rest(zone, quantity, ends))
        return self._series[key]

    def _rest(self, zone: str, quantity: Quantity, ends: list[Ends]) -> list[Readings]:
        """The readings that no stored part holds, the last stored one first."""
        since_s = ends[-1].last_s if ends else ALL_TIME.start
        those = self._spoken_for.get(zone, ())
        at_s, levels = zone_levels(self._connection, those, quantity, since_s, self._most)
        cuts = [slice(first, first + PART + 1) for first in range(0, len(at_s) - 1, PART)]
        return [Readings(at_s[cut], levels[cut], measured(at_s[cut], self._gap_s)) for cut in cuts]


def keep_courses(book: Book, gap_s: int, wanted: Wanted) -> None:
    """Store the sums that will be needed, as far as the book lets itself be written.

    Nothing is refused here: what cannot be stored is made anew by whoever needs it.
    """
    if book.read_only:
        return
    try:
        while lacking := _lacking(book, gap_s, wanted):
            for zone in lacking:
                with book.transaction() as connection:
                    lock_sensors(connection)  # so that nothing late is written meanwhile
                    made = Courses(connection, gap_s, most=_AT_ONCE * PART + 1)
                    made.store(zone, wanted[zone])
    except Refusal as refusal:
        if refusal.exit is not Exit.NO_BOOK:
            raise


def _lacking(book: Book, gap_s: int, wanted: Wanted) -> list[str]:
    """The zones of which more could be stored: a full part of readings, or sums over it."""
    with book.reading() as connection:
        counts = part_counts(connection, gap_s)
        spoken_for = stands(sensor_entries(connection))

        def is_lacking(zone: str, of: Sum) -> bool:
            count = counts.get((zone, of.of), 0)
            if counts.get((zone, of.name), 0) < count:
                return True
            last_s = Parts(connection, zone, gap_s).last_s(of.of, count - 1)
            since_s = ALL_TIME.start if last_s is None else last_s
            those = spoken_for.get(zone, ())
            return count_levels(connection, those, of.of, since_s, PART + 1) > PART

        return [zone for zone, sums in wanted.items() if any(is_lacking(zone, of) for of in sums)]
