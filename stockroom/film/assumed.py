"""What is assumed of the roll memory of a kind, until its own curl trials fit it.

    assumed(kind)        Assumed, or None where film of that kind is not wound to be applied
      .prony             how it relaxes, in days at the reference temperature
      .limit_circle_mm   the circle that is the limit of a curl trial
      .modulus_gpa, .poisson   for the energy to hold it flat; None where not even a guess is known
    POLYESTER            the memory of window film, where no kind is named

All of it is a default. No relaxation time of roll memory is published for these films: the times
and weights are placeholders, no source, chosen so that urethane lets go of a curve faster than
polyester, and calendered vinyl keeps more of one than cast. Nor is it published how much curl lifts
film: every limit is house policy, no source. The modulus of polyester film is from a table that
compares films, its Poisson's ratio from memory.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stockroom.film.kinds import Kind
from stockroom.film.prony import Prony


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumed:
    """The defaults of a kind."""

    prony: Prony
    limit_circle_mm: float
    modulus_gpa: float | None = None
    poisson: float | None = None


POLYESTER = Prony((0.2, 0.2, 0.2), (10.0, 100.0, 1_000.0))
_URETHANE = Prony((0.15, 0.15, 0.15), (1.0, 10.0, 100.0))
_CAST_VINYL = Prony((0.2, 0.2, 0.2), (3.0, 30.0, 300.0))
_CALENDERED_VINYL = Prony((0.25, 0.25, 0.25), (3.0, 30.0, 300.0))

_BY_KIND: Mapping[Kind, Assumed] = MappingProxyType(
    {
        Kind.WINDOW_FILM: Assumed(
            prony=POLYESTER, limit_circle_mm=200, modulus_gpa=4.5, poisson=0.38
        ),
        Kind.PROTECTIVE_FILM: Assumed(prony=_URETHANE, limit_circle_mm=150),
        Kind.PRINT_VINYL: Assumed(prony=_CAST_VINYL, limit_circle_mm=150),
        Kind.CALENDERED_VINYL: Assumed(prony=_CALENDERED_VINYL, limit_circle_mm=150),
        Kind.LAMINATE: Assumed(prony=_CAST_VINYL, limit_circle_mm=150),
    }
)


def assumed(kind: Kind) -> Assumed | None:
    """The defaults of a kind; transfer tape is thrown away, and goods in boxes are not film."""
    return _BY_KIND.get(kind)
