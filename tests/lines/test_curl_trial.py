"""What is said of a curl trial."""

import pytest

from stockroom.books.values import Shop
from stockroom.film.limits import Basis, Figure
from stockroom.lines import curl_trial
from stockroom.lines.text_acts import act_words
from stockroom.units import MM, System
from tests.builders import Station


@pytest.mark.parametrize(
    ("measured", "system", "said"),
    [
        (
            {"chord_nm": 200 * MM, "height_nm": 10 * MM},
            System.METRIC,
            "passed, curls to a 1010 mm circle, limit 200 mm (default)",
        ),
        (
            {"chord_nm": 200 * MM, "height_nm": 10 * MM, "other_way": True},
            System.US,
            "passed, curls the other way to a 39 3/4 in circle, limit 7 7/8 in (default)",
        ),
        (
            {"chord_nm": 0, "height_nm": 199_900_000},
            System.METRIC,
            "failed: held, curls to a 199 mm circle, limit 200 mm (default)",
        ),
        (
            {"chord_nm": 300 * MM, "height_nm": 0},
            System.METRIC,
            "passed, lies flat, limit 200 mm (default)",
        ),
        (
            {"chord_nm": 300 * MM, "height_nm": 2 * MM},
            System.METRIC,
            "passed, lies flat, limit 200 mm (default)",
        ),
    ],
)
def test_a_trial_says_the_circle_beside_its_limit(
    station: Station, measured: dict[str, int], system: System, said: str
) -> None:
    """Rounded to the tighter side, so that what is too tight reads as it."""
    done = station.try_curl(station.roll(), **measured)

    assert act_words(done.act, Shop(system=system), ()) == f"curl trial {said}"


def test_a_pass_says_how_far_it_reaches_and_a_failure_nothing(station: Station) -> None:
    """In inches for who reads inches."""
    roll = station.roll()
    passed = station.try_curl(roll, chord_nm=200 * MM, height_nm=10 * MM)
    failed = station.try_curl(roll, chord_nm=0, height_nm=50 * MM)

    (line,) = curl_trial.reaches(passed, Shop(system=System.US))
    assert line == "good until 2026-12-25 for wraps outside 4 in; further in it is tried again"
    assert curl_trial.reaches(failed, Shop()) == []


def test_a_trial_written_before_circles_were_kept_is_said_all_the_same(station: Station) -> None:
    """Whether it passed is all that is known of it."""
    act = station.trial(station.roll(), "wound", "2027-01-01")

    assert act_words(act, Shop(), ()) == "curl trial passed"


@pytest.mark.parametrize(
    ("circle_nm", "says"),
    [
        (1010 * MM, "curls to a 1010 mm circle, limit 200 mm (default): it passes"),
        (200 * MM, "curls to a 200 mm circle, limit 200 mm (default): it passes"),
        (
            199_900_000,
            "curls to a 199 mm circle, limit 200 mm (default): it fails, and Enter holds the piece",
        ),
        (None, "lies flat, limit 200 mm (default): it passes"),
    ],
)
def test_what_would_be_written_is_said_before_it_is(circle_nm: int | None, says: str) -> None:
    """In the words of the trial itself."""
    limit = Figure(200.0, Basis.DEFAULT)

    assert curl_trial.foretold(circle_nm, limit, System.METRIC, other_way=False) == says
