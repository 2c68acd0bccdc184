"""Reckoning without a book: data on stdout, cautions beside it, refusals that name what is wrong."""

import json
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from stockroom.cli.calc import app
from stockroom.errors import Code, Refusal

LENGTH = ["length", "--core", "76.2mm", "--thickness", "50um"]
OUTSIDE = ["outside", "--length", "30.48m", "--core", "76.2mm", "--thickness", "76.2um"]
MASS = ["mass", "--width", "1000mm", "--length", "30.48m", "--layer", "50.8um:1390"]


def _ran(*arguments: str) -> Result:
    return CliRunner().invoke(app, arguments)


def _values(*arguments: str) -> dict[str, Any]:
    result = _ran(*arguments, "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    values: dict[str, Any] = json.loads(result.stdout)
    return values


def test_length_says_how_much_and_how_sure() -> None:
    """No finer than the band is wide: a millimetre of diameter is metres of film."""
    result = _ran(*LENGTH, "--outside", "150mm")

    assert result.exit_code == 0
    assert result.stdout == (
        "About 262 m, between 248 m and 276 m, in 738 wraps; a millimetre of diameter is 4.71 m.\n"
    )


def test_length_as_json_carries_units_in_its_keys() -> None:
    """Values against pi (D² - d²) / (4 t), calculated with 25 digits."""
    values = _values(*LENGTH, "--outside", "150mm")

    assert values == {
        "length_mm": pytest.approx(262_221.827, abs=0.01),
        "low_mm": pytest.approx(248_289.587, abs=0.01),
        "high_mm": pytest.approx(276_154.068, abs=0.01),
        "wraps": pytest.approx(738),
        "length_mm_per_mm_outside": pytest.approx(4712.389, abs=0.001),
    }


def test_a_tape_laid_round_gives_the_same_length_with_a_narrower_band() -> None:
    """471.239 mm round is 150 mm across."""
    across = _values(*LENGTH, "--outside", "150mm")
    around = _values(*LENGTH, "--round", "471.238898mm")

    assert around["length_mm"] == pytest.approx(across["length_mm"], abs=0.1)
    assert around["high_mm"] < across["high_mm"]


def test_us_units_read_bare_numbers_as_inches_and_mils_and_answer_in_feet() -> None:
    """And a sixteenth of an inch takes the place of the millimetre."""
    result = _ran("length", "--units", "us", "--outside", "5.9", "--core", "3", "--thickness", "2")

    assert result.stdout == (
        "About 845', between 800' and 890', in 725 wraps; 1/16 in of diameter is 24' 1 5/8\".\n"
    )


def test_the_last_wraps_are_said_more_finely() -> None:
    """A band under a metre is said in tenths of it."""
    result = _ran(*LENGTH[:-1], "500um", "--outside", "77mm")

    assert result.stdout == (
        "About 200 mm, between 0 mm and 400 mm, in 0.8 wraps; "
        "a millimetre of diameter is 241.9 mm.\n"
    )


def test_outside_says_how_thick_a_roll_becomes() -> None:
    """Values against sqrt(d² + 4 L t / pi), calculated with 25 digits."""
    assert _values(*OUTSIDE) == {"outside_mm": pytest.approx(93.614292, abs=1e-6)}
    assert _ran(*OUTSIDE).stdout == "93.6 mm across.\n"


def test_mass_adds_its_layers_and_leaves_the_core_out() -> None:
    """Values against w L sum(t rho)."""
    values = _values(*MASS, "--width", "1524mm")

    assert values == {"mass_kg": pytest.approx(3.280035, abs=1e-6)}
    assert _ran(*MASS, "--layer", "25.4um:1390").stdout == (
        "3.2 kg of film; the core comes on top.\n"
    )


@pytest.mark.parametrize("more", [["--width", "1524mm"], ["--length", "300m"]])
def test_a_wide_or_heavy_roll_is_shown_with_the_caution_for_two_people(more: list[str]) -> None:
    """Beside the answer, not in it; common practice, no source."""
    result = _ran(*MASS, *more)

    assert result.exit_code == 0
    assert "two people" in result.stderr
    assert "two people" not in result.stdout
    assert "two people" not in _ran(*MASS).stderr


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        ([*LENGTH], Code.BAD_USAGE),
        ([*LENGTH, "--outside", "150mm", "--round", "471mm"], Code.BAD_USAGE),
        ([*LENGTH, "--outside", "70mm"], Code.BAD_ROLL),
        ([*LENGTH, "--outside", "0"], Code.BAD_LENGTH),
        ([*LENGTH, "--outside", "-3m"], Code.BAD_LENGTH),
        ([*LENGTH, "--outside", "NaN"], Code.BAD_LENGTH),
        ([*LENGTH, "--outside", "101km"], Code.BAD_LENGTH),
        ([*LENGTH, "--outside", "99000m"], Code.BAD_ROLL),
        ([*OUTSIDE, "--length", "[/red]"], Code.BAD_LENGTH),
        ([*MASS, "--layer", "50um"], Code.BAD_LAYER),
        ([*MASS, "--width", "1" * 10_000], Code.BAD_LENGTH),
    ],
)
def test_bad_input_is_refused_and_nothing_is_printed(arguments: list[str], code: Code) -> None:
    """The refusal goes on to whoever runs the commands."""
    result = _ran(*arguments)

    assert isinstance(result.exception, Refusal)
    assert result.exception.code is code
    assert result.stdout == ""
