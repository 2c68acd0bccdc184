"""Where a function of one number turns from one sign to the other."""

from collections.abc import Callable

_MOST_HALVINGS = 200


def crossing(function: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that is not above zero at `low`, and is at `high`, crosses it.

    Halves the stretch until no float lies between its ends. `low` may be the greater one.
    """
    for _ in range(_MOST_HALVINGS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if function(middle) > 0:
            high = middle
        else:
            low = middle
    return low
