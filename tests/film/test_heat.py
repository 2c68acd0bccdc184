"""How much faster film ages when it is warm."""

from math import inf, nan

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film.heat import (
    DEFAULT_ENERGY_KJ,
    ageing_rate,
    energy_from_q10,
    parse_energy,
    temperature_at_rate_c,
)


def test_a_day_at_the_reference_is_a_day() -> None:
    """Whatever the energy."""
    assert ageing_rate(23.0) == 1.0
    assert ageing_rate(40.0, 120.0, 40.0) == 1.0


@pytest.mark.parametrize("temperature_c", [-40.0, 0.0, 22.9, 23.0, 60.0, 100.0])
def test_a_rate_leads_back_to_its_temperature(temperature_c: float) -> None:
    """For any energy and reference."""
    for energy_kj, reference_c in ((DEFAULT_ENERGY_KJ, 23.0), (51.0, 20.0), (150.0, 40.0)):
        rate = ageing_rate(temperature_c, energy_kj, reference_c)

        assert temperature_at_rate_c(rate, energy_kj, reference_c) == pytest.approx(
            temperature_c, abs=1e-9
        )


@pytest.mark.parametrize(
    ("text", "energy_kj"),
    [
        ("83.144", 83.144),
        ("96 kJ/mol", 96.0),
        (" 70,5  KJ ", 70.5),
        ("q10 2", energy_from_q10(2)),
        ("Q10=3", energy_from_q10(3)),
        ("Q10: 2.5", energy_from_q10(2.5)),
        ("Q10 3.0811", 83.153),
    ],
)
def test_an_energy_is_read_as_a_sheet_gives_it(text: str, energy_kj: float) -> None:
    """In kJ/mol, or as the factor between 20 and 30 °C."""
    assert parse_energy(text) == pytest.approx(energy_kj, abs=1e-2)


@pytest.mark.parametrize(
    "text",
    [
        *("", "warm", "-83", "0", "9.9", "301", "nan", "inf", "9" * 10_000, "83.144\x1b[2J"),
        *("Q10", "Q10 0", "Q10 1", "Q10 -2", "Q10 99", "83.144 kcal"),
    ],
)
def test_what_is_no_energy_is_refused_with_an_example(text: str) -> None:
    """None, or one that no film has, would age nothing, or everything at once."""
    with pytest.raises(Refusal, match=r"write kJ/mol from 10 to 300, like 83\.144") as caught:
        parse_energy(text)

    assert caught.value.code is Code.BAD_NUMBER
    assert caught.value.sentence.isprintable()


@pytest.mark.parametrize("temperature_c", [-273.15, -300.0, nan, inf])
def test_no_rate_without_a_temperature(temperature_c: float) -> None:
    """Below absolute zero is a slip of a unit."""
    with pytest.raises(ValueError, match="no temperature"):
        ageing_rate(temperature_c)


@pytest.mark.parametrize("energy_kj", [0.0, -83.0, nan, inf])
def test_no_rate_without_an_energy(energy_kj: float) -> None:
    """Readers refuse it before."""
    with pytest.raises(ValueError, match="activation energy"):
        ageing_rate(25.0, energy_kj)
