"""What wound film curls to, and what a strip tells, without a book."""

import json
from math import cos
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from stockroom.cli.calc import app
from stockroom.errors import Code, Refusal

MEMORY = ["memory", "--core", "76.2mm", "--thickness", "50.8um", "--wound", "180d"]
CURL = ["curl", "--chord", "200mm", "--height", "19mm"]


def _ran(*arguments: str) -> Result:
    return CliRunner().invoke(app, arguments)


def _values(*arguments: str) -> dict[str, Any]:
    result = _ran(*arguments, "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    values: dict[str, Any] = json.loads(result.stdout)
    return values


def test_memory_says_what_film_curls_to_and_that_it_is_a_guess() -> None:
    """A default reads as a default."""
    assert _ran(*MEMORY).stdout == (
        "It curls to a 191 mm circle: 40 % of the curve it was wound to. "
        "A strip of 300 mm stands 96 mm high. "
        "The memory is a default, a placeholder without a source: curl trials fit it.\n"
    )
    assert _values(*MEMORY)["basis"] == "default"


def test_memory_as_json_carries_units_in_its_keys() -> None:
    """Share by matrix exponential; bending by 2 / (D + t) and t / (D + t); R (1 - cos(s / 2R))."""
    radius_mm = 1_000 / (0.329074181 * 26.229233)

    values = _values(*MEMORY, "--free", "7d", "--prony", "0.2:10,0.2:100,0.2:1000")

    assert values == {
        "set_fraction": pytest.approx(0.329074181, abs=1e-9),
        "curl_per_m": pytest.approx(0.329074181 * 26.229233, abs=1e-6),
        "circle_mm": pytest.approx(2 * radius_mm, abs=1e-4),
        "bending_strain_pct": pytest.approx(0.06662225, abs=1e-8),
        "sagitta_mm": pytest.approx(radius_mm * (1 - cos(150 / radius_mm)), abs=1e-4),
        "prony": "0.2:10,0.2:100,0.2:1000",
        "basis": "as typed",
    }


def test_memory_of_film_wound_the_other_way_too() -> None:
    """Then free; the size of circle and strip has no side, the curl has."""
    reversed_ = _values(*MEMORY, "--reverse", "30d")
    recovered = _values(*MEMORY, "--reverse", "30d", "--free", "7d")

    assert reversed_["set_fraction"] == pytest.approx(-0.082187806, abs=1e-9)
    assert recovered["set_fraction"] == pytest.approx(-0.000404704677, abs=1e-9)
    assert reversed_["curl_per_m"] < 0 < reversed_["circle_mm"]
    assert reversed_["sagitta_mm"] > 0
    assert _ran(*MEMORY, "--reverse", "30d", "--prony", "0.2:10,0.2:100,0.2:1000").stdout == (
        "It curls the other way to a 928 mm circle: 8 % of the curve it was wound to. "
        "A strip of 300 mm stands 24 mm high.\n"
    )


def test_no_time_is_as_good_as_not_said() -> None:
    """Whoever steps through times begins with none."""
    assert _values(*MEMORY, "--free", "0d", "--reverse", "0d") == _values(*MEMORY)


def test_memory_reads_and_answers_in_inches() -> None:
    """Mils and inches when bare; a month is a twelfth of a year."""
    result = _ran(
        *("memory", "--units", "us", "--core", "3", "--thickness", "2", "--strip", "12"),
        *("--wound", "6mo", "--prony", "0.6:100,0.4"),
    )

    assert result.stdout == (
        "It curls to a 6 in circle: 50 % of the curve it was wound to. "
        "A strip of 12 in stands 4 1/4 in high.\n"
    )


def test_a_longer_strip_stands_no_higher_than_its_circle() -> None:
    """It has closed."""
    values = _values(*MEMORY, "--strip", "5m")

    assert values["sagitta_mm"] == values["circle_mm"] == pytest.approx(190.68, abs=0.01)


def test_curl_by_chord_and_height() -> None:
    """The circle through both: (c² / 4 + h²) / h."""
    assert _ran(*CURL).stdout == "It curls to a 545 mm circle.\n"
    assert _values(*CURL) == {
        "circle_mm": pytest.approx(545.315789, abs=1e-6),
        "curl_per_m": pytest.approx(2_000 / 545.315789, abs=1e-8),
    }


def test_curl_by_the_length_of_the_strip_and_height() -> None:
    """The vector: R 500 mm, s 300 mm, sagitta 22.331755 mm."""
    values = _values("curl", "--arc", "300mm", "--height", "22.331755mm")

    assert values["circle_mm"] == pytest.approx(1_000, abs=1e-4)


def test_a_closed_strip_is_as_wide_as_its_circle_and_a_straight_one_has_none() -> None:
    """No chord; no height."""
    assert _values("curl", "--chord", "0", "--height", "76")["circle_mm"] == 76
    assert _values("curl", "--chord", "300", "--height", "0") == {
        "circle_mm": None,
        "curl_per_m": 0,
    }
    assert _ran("curl", "--chord", "300", "--height", "0").stdout == "It lies flat.\n"


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        ([*MEMORY, "--wound", "0d"], Code.BAD_SPAN),
        ([*MEMORY, "--wound", "-3d"], Code.BAD_SPAN),
        ([*MEMORY, "--wound", "nan"], Code.BAD_SPAN),
        ([*MEMORY, "--free", "soon"], Code.BAD_SPAN),
        ([*MEMORY, "--reverse", "[/red]"], Code.BAD_SPAN),
        ([*MEMORY, "--core", "0"], Code.BAD_LENGTH),
        ([*MEMORY, "--core", "9km"], Code.BAD_ROLL),
        ([*MEMORY, "--thickness", "20mm"], Code.BAD_ROLL),
        ([*MEMORY, "--strip", "0"], Code.BAD_LENGTH),
        ([*MEMORY, "--strip", "99km"], Code.BAD_CURL),
        ([*MEMORY, "--prony", "0.5:10,0.4:100,0.3:1000"], Code.BAD_MEMORY),
        ([*MEMORY, "--prony", "0.2:10,0.3"], Code.BAD_MEMORY),
        ([*MEMORY, "--prony", "nan:10"], Code.BAD_MEMORY),
        ([*MEMORY, "--prony", "0.2:-10"], Code.BAD_MEMORY),
        ([*MEMORY, "--prony", "0.2;10"], Code.BAD_MEMORY),
        (["curl", "--height", "19mm"], Code.BAD_USAGE),
        ([*CURL, "--height", "-3m"], Code.BAD_LENGTH),
        ([*CURL, "--height", "nan"], Code.BAD_LENGTH),
        ([*CURL, "--chord", "0", "--height", "0"], Code.BAD_CURL),
        ([*CURL, "--arc", "150mm"], Code.BAD_CURL),
        ([*CURL, "--arc", "201mm"], Code.BAD_CURL),
        (["curl", "--arc", "300mm", "--height", "140mm"], Code.BAD_CURL),
        (["curl", "--arc", "0", "--height", "1mm"], Code.BAD_LENGTH),
    ],
)
def test_bad_input_is_refused_and_nothing_is_printed(arguments: list[str], code: Code) -> None:
    """The refusal goes on to whoever runs the commands."""
    result = _ran(*arguments)

    assert isinstance(result.exception, Refusal)
    assert result.exception.code is code
    assert result.stdout == ""
