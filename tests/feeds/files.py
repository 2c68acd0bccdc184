"""Files of loggers to test with, and how they are read."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from stockroom.feeds.days import Order
from stockroom.feeds.headings import Scale
from stockroom.feeds.logger import Log, read_log
from stockroom.feeds.reading import Reading, Wrong
from stockroom.feeds.understanding import Told
from tests.conftest import NOW

BERLIN = ZoneInfo("Europe/Berlin")
NOW_S = int(NOW.timestamp())


def log_of(
    *lines: str,
    shop: str = "UTC",
    clock: str | None = None,
    order: Order | None = None,
    scale: Scale | None = None,
) -> Log:
    """What a file of these lines says to a shop with this clock."""
    told = Told(
        shop_clock=ZoneInfo(shop),
        clock=None if clock is None else ZoneInfo(clock),
        order=order,
        scale=scale,
    )
    return read_log("\n".join(lines) + "\n", told, NOW_S)


def at(text: str, temperature_c: float, rh_pct: float | None = None) -> Reading:
    """A reading at an instant UTC, written as 2025-03-14 16:30."""
    moment = datetime.fromisoformat(text).replace(tzinfo=UTC)
    return Reading(int(moment.timestamp()), temperature_c, rh_pct)


def found(log: Log) -> list[tuple[int, int, Wrong]]:
    """The findings of a file, without their words."""
    return [(one.first_line, one.last_line, one.wrong) for one in log.findings]
