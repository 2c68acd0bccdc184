"""How much faster film ages when it is warm: Arrhenius, and the Q10 that some sheets give instead.

    ageing_rate              how many days at the reference a day at a temperature is worth
    ageing_rates             the same of many temperatures at once
    Rates                    the same of many temperatures, each worked out when it is asked for
    temperature_at_rate_c    the temperature at which a day is worth so many
    energy_from_q10          the activation energy that a factor per ten kelvin stands for
    parse_energy             83.144, 83.144 kJ/mol, Q10 3; Refusal BAD_NUMBER

a(T) = exp(Ea/R (1/Tref - 1/T)), temperatures in kelvin. The default of 83.144 kJ/mol is the
convention of USP <1160> "unless more accurate information is available"; with it ten kelvin are
about a factor of three. None was derived for roll memory, and none holds across a transition of
the film: polyester softens near 78 °C.
"""

import re
from collections.abc import Iterator, Sequence
from math import exp, inf, isfinite, log
from typing import overload

from stockroom.errors import Code, Refusal, clean_text

GAS_CONSTANT_J_MOL_K = 8.314462618  # CODATA 2018
ZERO_C_K = 273.15
DEFAULT_ENERGY_KJ = 83.144
REFERENCE_C = 23.0

_AT_REFERENCE = 1 / (REFERENCE_C + ZERO_C_K)
_LEAST_ENERGY_KJ, _MOST_ENERGY_KJ = 10.0, 300.0  # outside: a slip of the finger, not film
_Q10_BETWEEN_C = 20.0, 30.0
_TEN_KELVIN = 10.0


def ageing_rate(
    temperature_c: float,
    energy_kj: float = DEFAULT_ENERGY_KJ,
    reference_c: float = REFERENCE_C,
) -> float:
    """How many days at the reference a day at a temperature is worth; energy in kJ/mol."""
    return exp(_scale_k(energy_kj) * (1 / _kelvin(reference_c) - 1 / _kelvin(temperature_c)))


def ageing_rates(
    temperatures_c: Sequence[float],
    energy_kj: float = DEFAULT_ENERGY_KJ,
    reference_c: float = REFERENCE_C,
) -> list[float]:
    """The same of many temperatures at once, which takes a tenth of the time."""
    if not temperatures_c:
        return []
    _kelvin(min(temperatures_c))
    scale_k, at_reference = _scale_k(energy_kj), 1 / _kelvin(reference_c)
    return [exp(scale_k * (at_reference - 1 / (one + ZERO_C_K))) for one in temperatures_c]


class Rates(Sequence[float]):
    """The ageing rates of temperatures, each worked out when it is asked for."""

    def __init__(self, temperatures_c: Sequence[float], energy_kj: float) -> None:
        self._temperatures_c = temperatures_c
        self._energy_kj = energy_kj
        self._scale_k = _scale_k(energy_kj)

    def __len__(self) -> int:
        return len(self._temperatures_c)

    def __iter__(self) -> Iterator[float]:
        return iter(ageing_rates(self._temperatures_c, self._energy_kj))

    @overload
    def __getitem__(self, place: int) -> float: ...

    @overload
    def __getitem__(self, place: slice) -> "Rates": ...

    def __getitem__(self, place: int | slice) -> "float | Rates":
        if isinstance(place, slice):
            return Rates(self._temperatures_c[place], self._energy_kj)
        kelvin = self._temperatures_c[place] + ZERO_C_K
        return exp(self._scale_k * (_AT_REFERENCE - 1 / kelvin))


def temperature_at_rate_c(
    rate: float,
    energy_kj: float = DEFAULT_ENERGY_KJ,
    reference_c: float = REFERENCE_C,
) -> float:
    """The temperature at which a day is worth so many days at the reference."""
    return 1 / (1 / _kelvin(reference_c) - log(rate) / _scale_k(energy_kj)) - ZERO_C_K


def energy_from_q10(
    q10: float, low_c: float = _Q10_BETWEEN_C[0], high_c: float = _Q10_BETWEEN_C[1]
) -> float:
    """The activation energy in kJ/mol with which q10 per ten kelvin holds between two temperatures."""
    kelvin_squared = _kelvin(low_c) * _kelvin(high_c)
    return GAS_CONSTANT_J_MOL_K * log(q10) * kelvin_squared / _TEN_KELVIN / 1_000


_ENERGY = re.compile(r"(?P<number>\d+(?:[.,]\d+)?) ?(?:kj(?:/mol)?)?", re.ASCII)
_Q10 = re.compile(r"q10 ?[=:]? ?(?P<number>\d+(?:[.,]\d+)?)", re.ASCII)


def parse_energy(text: str) -> float:
    """An activation energy in kJ/mol, or a Q10 between 20 and 30 °C, as a person writes it."""
    plain = " ".join(text[:40].lower().split())
    q10, energy = _Q10.fullmatch(plain), _ENERGY.fullmatch(plain)
    energy_kj = inf
    if q10 is not None:
        number = _number(q10["number"])
        energy_kj = energy_from_q10(number) if number > 0 else inf
    elif energy is not None:
        energy_kj = _number(energy["number"])
    if _LEAST_ENERGY_KJ <= energy_kj <= _MOST_ENERGY_KJ:
        return energy_kj
    raise Refusal(
        Code.BAD_NUMBER,
        f"'{clean_text(text, 40)}' is no activation energy: write kJ/mol from 10 to 300, "
        "like 83.144, or a factor per ten kelvin, like Q10 2.",
    )


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _scale_k(energy_kj: float) -> float:
    """Ea/R in kelvin."""
    if not (isfinite(energy_kj) and energy_kj > 0):
        raise ValueError(f"an activation energy is more than nothing, not {energy_kj}")
    return energy_kj * 1_000 / GAS_CONSTANT_J_MOL_K


def _kelvin(temperature_c: float) -> float:
    kelvin = temperature_c + ZERO_C_K
    if not (isfinite(kelvin) and kelvin > 0):
        raise ValueError(f"no temperature is {temperature_c} °C")
    return kelvin
