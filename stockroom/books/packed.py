"""Readings in few bytes, read from there as they are asked for.

Most loggers read at even steps: their seconds take no room. Most give a hundredth at the finest: two
bytes each. What is not so is kept in eight bytes. Numbers are written with their lowest byte first.

    packed(at_s, levels, measured_s)   the bytes
    unpacked(content)                  the seconds, the levels, and the measured seconds up to each
    numbers(kind, content)             an array of what `written` wrote
"""

import sys
from array import array
from collections.abc import Iterator, Sequence
from struct import Struct
from typing import Any, overload

_HEAD = Struct("<qqqq")
"""How many readings, the first second, the step (0: each second follows), the bytes of a level."""

_FINEST = 100
_HALF, _WHOLE = 2, 8
_MOST = 32_767

Unpacked = tuple[Sequence[int], Sequence[float], Sequence[int]]


class Hundredths(Sequence[float]):
    """Levels that are whole hundredths, kept as whole numbers."""

    def __init__(self, whole: "array[int]") -> None:
        self._whole = whole

    def __len__(self) -> int:
        return len(self._whole)

    def __iter__(self) -> Iterator[float]:
        return (number / _FINEST for number in self._whole)

    @overload
    def __getitem__(self, place: int) -> float: ...

    @overload
    def __getitem__(self, place: slice) -> "array[float]": ...

    def __getitem__(self, place: int | slice) -> "float | array[float]":
        if isinstance(place, slice):
            return array("d", (number / _FINEST for number in self._whole[place]))
        return self._whole[place] / _FINEST


def packed(at_s: Sequence[int], levels: Sequence[float], measured_s: Sequence[int]) -> bytes:
    """Readings in order of time, at least two, as bytes."""
    first_s, step_s = at_s[0], at_s[1] - at_s[0]
    is_even = all(second == first_s + step_s * place for place, second in enumerate(at_s))
    whole = _hundredths(levels)
    size = _WHOLE if whole is None else _HALF
    content = _HEAD.pack(len(at_s), first_s, step_s if is_even else 0, size)
    if not is_even:
        content += written(array("q", at_s))
    content += written(array("d", levels) if whole is None else whole)
    if measured_s[-1] != at_s[-1] - first_s:
        content += written(array("q", measured_s))
    return content


def unpacked(content: bytes) -> Unpacked:
    """The seconds, the levels, and the measured seconds up to each reading."""
    count, first_s, step_s, size = _HEAD.unpack_from(content)
    rest = memoryview(content)[_HEAD.size :]
    at_s: Sequence[int] = range(first_s, first_s + step_s * count, step_s or 1)
    if not step_s:
        at_s, rest = numbers("q", rest[: _WHOLE * count]), rest[_WHOLE * count :]
    of_levels, gaps = rest[: size * count], rest[size * count :]
    levels = Hundredths(numbers("h", of_levels)) if size == _HALF else numbers("d", of_levels)
    return at_s, levels, numbers("q", gaps) if gaps else _all_measured(at_s)


def _hundredths(levels: Sequence[float]) -> "array[int] | None":
    """The levels in whole hundredths; None where one of them is none, or too large."""
    whole = [round(level * _FINEST) for level in levels]
    if all(
        abs(number) <= _MOST and number / _FINEST == level
        for number, level in zip(whole, levels, strict=True)
    ):
        return array("h", whole)
    return None


def _all_measured(at_s: Sequence[int]) -> Sequence[int]:
    """The measured seconds up to each reading where no gap was too long: all that went by."""
    first_s = at_s[0]
    if isinstance(at_s, range):
        return range(0, at_s.stop - first_s, at_s.step)
    return array("q", (second - first_s for second in at_s))


def written(those: "array[Any]") -> bytes:
    """The numbers as bytes; the array is not to be used again."""
    if sys.byteorder == "big":
        those.byteswap()
    return those.tobytes()


def numbers(kind: str, content: memoryview | bytes) -> "array[Any]":
    """The numbers some bytes are, of a kind of `array`."""
    found: array[Any] = array(kind)
    found.frombytes(content)
    if sys.byteorder == "big":
        found.byteswap()
    return found
