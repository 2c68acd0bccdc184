"""The climates pieces stood in, for one report: what was measured of each zone, and who was where when."""

from collections.abc import Mapping
from datetime import datetime
from functools import cached_property
from hashlib import sha256

from sqlalchemy import Connection

from stockroom.books.catalog import materials
from stockroom.books.course import Courses
from stockroom.books.pieces import standing
from stockroom.books.readings import latest_reading, zone_readings
from stockroom.books.sensors import ASSUMED, Stand, second_of, sensor_entries, stands, zone_values
from stockroom.books.settled import Known, Settled, is_settled, known, settled
from stockroom.books.stays import Stays, Zones, stays, stays_of
from stockroom.books.trials import Trial, curl_trials
from stockroom.books.values import Material, Reading, Shop, Standing
from stockroom.film.chain import Chain
from stockroom.film.exposure import History
from stockroom.film.sums import Sum

_A_FEW = 1_000
"""So many pieces are looked for one by one; after that, all are at once."""


class Climates:
    """What is known of zones and stays up to an instant, while a connection is open.

    Of all pieces, or of a few that are asked for one by one. Where no sensor ever was, nothing is
    looked up.
    """

    def __init__(
        self,
        connection: Connection,
        shop: Shop,
        until: datetime,
        *,
        few: bool = False,
    ) -> None:
        self._connection = connection
        self._until = until
        self.until_s = second_of(until)
        """The second up to which things are known."""
        self._air = shop.house.air
        self._gap_s = gap_s = self._air.gap_s
        self._are_few = few
        self._stands: Mapping[str, tuple[Stand, ...]] = stands(sensor_entries(connection))
        self._courses = Courses(connection, gap_s, spoken_for=self._stands)
        self._stays: Mapping[str, Stays] | None = None
        self._few: dict[str, Stays] = {}
        self.assumed_c: Mapping[str, float] = {
            zone: float(value)
            for zone, value in zone_values(connection, ASSUMED, until).items()
            if value
        }

    @property
    def is_measured(self) -> bool:
        """Whether a sensor ever stood anywhere."""
        return bool(self._stands)

    def stays(self, code: str) -> Stays:
        """Where a piece stood; nothing where no climate is known of any zone."""
        if not (self._stands or self.assumed_c):
            return ()
        if self._stays is None and (self._are_few or self.settled) and len(self._few) < _A_FEW:
            if code not in self._few:
                self._few[code] = stays_of(self._connection, code, self._until, self._zones)
            return self._few[code]
        if self._stays is None:
            self._stays = stays(self._connection, self._until, self._zones)
        return self._stays.get(code, ())

    def lately(self, code: str) -> Stays:
        """The last two zones a piece was in; none of one that stood where it is before what is settled."""
        return () if code in self.settled else self.stays(code)[-2:]

    @cached_property
    def settled(self) -> Settled:
        """What storage did to pieces up to a second, as far as it is stored; of a few nothing is."""
        if self._are_few or not self.is_measured:
            return Settled()
        return settled(self._connection, self.basis, self.until_s)

    def is_settled(self, last_s: int) -> bool:
        """Whether what is stored reaches to within a week of a second, or somebody works at it."""
        return is_settled(self._connection, self.basis, now_s=self.until_s, last_s=last_s)

    def begin_noting(self, until_s: int) -> Known:
        """From now on, note what storage does to pieces up to a second; what is known of moves comes back."""
        self.settled = Settled(until_s, noted={})
        return known(self._connection, self._until)

    @cached_property
    def basis(self) -> str:
        """Of everything but readings and moves that says what storage does: another where one is."""
        known = repr((self._air, sorted(self.assumed_c.items()), self._zones.basis))
        return sha256(known.encode()).hexdigest()

    @cached_property
    def _zones(self) -> Zones:
        return Zones(self._connection)

    def heard_s(self) -> list[int]:
        """The second of the newest reading of each sensor that speaks for a zone now."""
        speaking = {one.sensor_id for those in self._stands.values() for one in those if one.speaks}
        latest = (latest_reading(self._connection, sensor_id) for sensor_id in sorted(speaking))
        return [reading.at_s for reading in latest if reading is not None]

    def trials(self) -> tuple[Trial, ...]:
        """The curl trials that stand."""
        return curl_trials(self._connection, self._until)

    def materials(self) -> Mapping[int, Material]:
        """Every material, by its id."""
        return materials(self._connection, self._until)

    def standing(self, code: str) -> Standing:
        """A piece as it stands now."""
        return standing(self._connection, code, self._until)

    def ageing(self, zone: str, energy_kj: float) -> History:
        """How a zone aged film, for an activation energy in kJ/mol."""
        return self._courses.ageing(zone, energy_kj)

    def sum(self, zone: str, of: Sum) -> Chain:
        """One sum over a zone."""
        return self._courses.of(zone, of)

    def reading(self, zone: str, at_s: int) -> Reading | None:
        """The newest reading of a zone at a second, with calibration; None where it is too old."""
        newest: Reading | None = None
        those = self._stands.get(zone, ())
        for part in zone_readings(self._connection, those, at_s - self._gap_s, at_s + 1):
            newest = part[-1] if part else newest
        return newest
