"""A curl in words and for a script."""

import pytest

from stockroom.lines.curl import curl_values, curls
from stockroom.units import System


@pytest.mark.parametrize(
    ("curl", "system", "said"),
    [
        (26.246719, System.METRIC, "curls to a 76 mm circle"),
        (26.246719, System.US, "curls to a 3 in circle"),
        (-10.0, System.METRIC, "curls the other way to a 200 mm circle"),
        (0.21, System.METRIC, "curls to a 9524 mm circle"),
        (0.2, System.METRIC, "lies flat"),
        (-0.0106, System.METRIC, "lies flat"),
        (0.0, System.METRIC, "lies flat"),
    ],
)
def test_a_curl_is_the_circle_it_closes_to(curl: float, system: System, said: str) -> None:
    """From ten metres on nobody sees that it is one."""
    assert curls(curl, system) == said


def test_a_script_reads_the_circle_as_a_size_and_the_side_off_the_curl() -> None:
    """Film that lies flat has no circle."""
    assert curl_values(-10.0) == {"circle_mm": 200.0, "curl_per_m": -10.0}
    assert curl_values(0.0) == {"circle_mm": None, "curl_per_m": 0.0}
