"""Where a function of one number turns from one sign to the other."""

from collections.abc import Callable

_MOST_HALVINGS = 200


def crossing(
    function: Callable[[float], float], low: float, high: float, near_enough: float = 0.0
) -> float:
    """Where a function that is not above zero at `low`, and is at `high`, crosses it.

    Halves the stretch until its ends are near enough, or until no float lies between them. `low`
    may be the greater one.
    """
    for _ in range(_MOST_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high) or abs(high - low) <= near_enough:
            break
        if function(middle) > 0:
            high = middle
        else:
            low = middle
    return low
