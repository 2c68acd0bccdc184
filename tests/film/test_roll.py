"""What a roll cannot be, and how far a measurement is to be trusted."""

from math import inf, nan, pi, sqrt

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film import roll
from stockroom.units import System

FILM = [roll.Layer(50.8, 1390)]


@pytest.mark.parametrize("bad", [0.0, -1.0, nan, inf, -inf, 1e9])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_number_no_roll_can_have_is_refused(bad: float, place: int) -> None:
    """Zero, negative, not a number, endless, huge; in each place."""
    sizes = [150.0, 76.2, 50.0]
    sizes[place] = bad

    for measure in (roll.length_m, roll.wraps):
        with pytest.raises(Refusal) as refused:
            measure(sizes[0], sizes[1], sizes[2])

        assert refused.value.code is Code.BAD_ROLL


def test_an_outside_smaller_than_the_core_is_refused_and_a_bare_core_is_not() -> None:
    """A bare core holds nothing, and says so."""
    with pytest.raises(Refusal, match=r"cannot have a core of 76\.2 mm") as refused:
        roll.length_m(76.1, 76.2, 50)

    assert refused.value.code is Code.BAD_ROLL
    assert roll.length_m(76.2, 76.2, 50) == roll.wraps(76.2, 76.2, 50) == 0
    assert roll.outside_mm(0, 76.2, 50) == pytest.approx(76.2, rel=1e-15)
    assert roll.mass_kg(1524, 0, FILM) == 0


@pytest.mark.parametrize("length", [-0.001, nan, inf, 1e9])
def test_a_length_no_film_can_have_is_refused(length: float) -> None:
    """Everywhere a length goes in."""
    with pytest.raises(Refusal, match="The length cannot be"):
        roll.outside_mm(length, 76.2, 50)
    with pytest.raises(Refusal, match="The length cannot be"):
        roll.mass_kg(1524, length, FILM)
    with pytest.raises(Refusal, match="The length cannot be"):
        roll.calibrated_thickness_um(118, 76.2, length)


def test_a_bare_core_calibrates_nothing() -> None:
    """No thickness follows from no film."""
    with pytest.raises(Refusal, match="thickness that follows"):
        roll.calibrated_thickness_um(76.2, 76.2, 30.48)


@pytest.mark.parametrize(
    ("gross", "core"), [(1.0, 1.5), (1.0, -0.1), (1.0, nan), (0.0, 0.0), (nan, 0.0)]
)
def test_a_core_heavier_than_its_roll_is_refused(gross: float, core: float) -> None:
    """Weigh it again."""
    with pytest.raises(Refusal) as refused:
        roll.length_from_mass_m(gross, core, 1524, FILM)

    assert refused.value.code is Code.BAD_ROLL


def test_film_of_unknown_layers_cannot_be_weighed() -> None:
    """The sentence says what to give."""
    with pytest.raises(Refusal, match=r"50\.8um:1390"):
        roll.mass_kg(1524, 30.48, [])


def test_the_band_adds_the_errors_of_diameter_and_thickness_as_squares() -> None:
    """Both parts as the formula gives them: 4.712 m a millimetre, 5 % of 262.222 m."""
    found = roll.estimate_by_outside(150, 76.2, 50)

    error = sqrt(4.71238898**2 + (0.05 * 262.2218273) ** 2)
    assert found.high_m - found.length_m == pytest.approx(error, rel=1e-8)
    assert found.length_m - found.low_m == pytest.approx(error, rel=1e-8)


def test_the_band_by_mass_adds_the_errors_of_scale_and_layers_as_squares() -> None:
    """Fifty grams on the scale, three per cent of the areal mass."""
    found = roll.estimate_by_mass(3.280034730240, 0, 1524, FILM)

    per_m = 3.280034730240 / 30.48
    error = sqrt((0.05 / per_m) ** 2 + (0.03 * 30.48) ** 2)
    assert found.length_m == pytest.approx(30.48, rel=1e-9)
    assert found.high_m - found.length_m == pytest.approx(error, rel=1e-8)


def test_a_band_never_reaches_below_nothing() -> None:
    """A nearly bare core."""
    assert roll.estimate_by_outside(76.3, 76.2, 50).low_m == 0.0


def test_a_tape_laid_round_is_surer_than_a_calliper_across() -> None:
    """Two millimetres of tape are two thirds of a millimetre of diameter."""
    assert roll.outside_from_round_mm(150 * pi) == pytest.approx(150)
    assert pytest.approx(2 / pi) == roll.TAPE_ERROR_MM
    assert roll.TAPE_ERROR_MM < roll.CALLIPER_ERROR_MM


@pytest.mark.parametrize(
    ("text", "system", "layer"),
    [
        ("50.8um:1390", System.METRIC, roll.Layer(50.8, 1390)),
        ("2mil:1390", System.METRIC, roll.Layer(50.8, 1390)),
        ("2:1390", System.US, roll.Layer(50.8, 1390)),
        ("25.4 um : 1.39 g/cm3", System.METRIC, roll.Layer(25.4, 1390)),
    ],
)
def test_a_layer_is_read_as_thickness_and_density(
    text: str, system: System, layer: roll.Layer
) -> None:
    """In the units of the book when bare."""
    read = roll.parse_layer(text, system)

    assert (read.thickness_um, read.density_kg_m3) == pytest.approx(
        (layer.thickness_um, layer.density_kg_m3)
    )


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("50.8um", Code.BAD_LAYER),
        ("", Code.BAD_LAYER),
        ("50.8um:", Code.BAD_LAYER),
        ("50.8um:0", Code.BAD_LAYER),
        ("50.8um:nan", Code.BAD_LAYER),
        ("50.8um:1390:1", Code.BAD_LAYER),
        (":1390", Code.BAD_LENGTH),
        ("-1um:1390", Code.BAD_LENGTH),
    ],
)
def test_what_is_no_layer_is_refused(text: str, code: Code) -> None:
    """With the code of the part that is wrong."""
    with pytest.raises(Refusal) as refused:
        roll.parse_layer(text)

    assert refused.value.code is code


FACE, GLUE, LINER = (roll.Layer(thick, 1_200) for thick in (80.1, 25.2, 90.0))


@pytest.mark.parametrize(
    ("applied_um", "stays"),
    [
        (None, (FACE, GLUE, LINER)),
        (105.3, (FACE, GLUE)),
        (100.0, (FACE,)),
        (500.0, (FACE, GLUE, LINER)),
        (10.0, ()),
    ],
)
def test_what_stays_when_the_liner_is_pulled(
    applied_um: float | None, stays: tuple[roll.Layer, ...]
) -> None:
    """The layers down to the thickness as applied; 80.1 + 25.2 is 105.3 to a float's hair."""
    assert roll.applied_layers([FACE, GLUE, LINER], applied_um) == stays
