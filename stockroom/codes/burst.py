"""Tells a scanner that plays a keyboard from a person who types.

A scanner sends its code as a burst: keys a few milliseconds apart, closed by Enter, Tab, a line feed,
or by silence. Every key goes through `Burst.feed`, which gives back what has been decided: a `Scanned`
text, or the keys of a person, each in its turn. Keys that may still become a scan are held back until
it is known, for at most SILENCE_S.

A burst is a scan when it has at least six characters, not all the same (a key held down repeats every
33 ms), and half of the gaps are 35 ms or less. A code of the book, or a text that opens with an AIM
symbology identifier (ISO/IEC 15424, like ]Q1), is one at any pace. These limits are common practice,
no source; they told scanners of 8 to 25 ms a key from simulated typists of 60 to 110 words a minute.
"""

import math
import re
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from stockroom.codes.own import is_code

SILENCE_S = 0.15

_LONGEST_GAP_S = 0.12
_TYPING_GAP_S = 0.06
_MEDIAN_GAP_S = 0.035
_TIMER_EARLY_S = 0.001
_FEWEST_CHARACTERS = 6
_MOST_CHARACTERS = 512
_END_KEYS = frozenset({"enter", "ctrl+j", "tab"})
_GROUP_SEPARATOR_KEY = "ctrl+right_square_bracket"
_AIM = re.compile(r"\][A-Za-z][0-9A-Za-z](?=.)", re.DOTALL)
_CODES_IN_A_ROW = re.compile(r"(?:(?:\][A-Za-z][0-9A-Za-z])?[A-Z]\d{6}[0-9A-Z])+", re.ASCII)
_CODE = re.compile(r"[A-Z]\d{6}[0-9A-Z]", re.ASCII)


@dataclass(frozen=True, slots=True)
class Stroke:
    """One key as the terminal named it, the character it stands for, and when it came, in seconds."""

    key: str
    character: str | None
    at_s: float

    @property
    def text(self) -> str:
        """What the key adds to a scan; a group separator may come without its character."""
        if self.key == _GROUP_SEPARATOR_KEY:
            return "\x1d"
        return self.character if self.character and self.character.isprintable() else ""


@dataclass(frozen=True, slots=True)
class Scanned:
    """A text that a scanner sent, without its symbology identifier."""

    text: str


def _codes_in(text: str) -> list[str]:
    """The codes of the book that a text is made of, or none if it is anything else."""
    codes = _CODE.findall(text) if _CODES_IN_A_ROW.fullmatch(text) else []
    return codes if all(map(is_code, codes)) else []


def _is_fast(strokes: list[Stroke]) -> bool:
    """Whether the keys came as a scanner sends them, and are not one key held down."""
    gaps_s = [later.at_s - sooner.at_s for sooner, later in pairwise(strokes)]
    return len({stroke.text for stroke in strokes}) > 1 and median(gaps_s) <= _MEDIAN_GAP_S


def _scans(strokes: list[Stroke]) -> list[Scanned]:
    """What a scanner sent in these keys, or nothing if a person typed them."""
    written = [stroke for stroke in strokes if stroke.text]
    text = "".join(stroke.text for stroke in written)
    if codes := _codes_in(text):
        return [Scanned(code) for code in codes]
    if _AIM.match(text):
        return [Scanned(_AIM.sub("", text, count=1))]
    return [Scanned(text)] if len(text) >= _FEWEST_CHARACTERS and _is_fast(written) else []


class Burst:
    """The keys that may still become a scan; feed it every key and tell it of silence."""

    def __init__(self) -> None:
        self._held: list[Stroke] = []
        self._last_at_s = -math.inf
        self._was_slow = False
        self._ended_at_s = -math.inf

    @property
    def is_waiting(self) -> bool:
        """Whether keys are held back, so that silence must be told."""
        return bool(self._held)

    def feed(self, stroke: Stroke) -> list[Scanned | Stroke]:
        """What one more key decides, in order; keys that are given back were typed by a person."""
        decided = self._close() if self._is_late(stroke) else []
        if stroke.key in _END_KEYS:
            return decided + self._end(stroke)
        if not (self._held or stroke.text):
            return [*decided, stroke]
        if len(self._held) < _MOST_CHARACTERS:
            self._held.append(stroke)
        return decided + (self._release() if self._is_one_key_held_down() else [])

    def silence(self, at_s: float) -> list[Scanned | Stroke]:
        """What it decides that no key came until this time; nothing yet before SILENCE_S."""
        return self._close() if at_s - self._last_at_s >= SILENCE_S - _TIMER_EARLY_S else []

    def _is_late(self, stroke: Stroke) -> bool:
        """Whether the key comes too late for a scan: one long gap, or two of a typist."""
        gap_s = stroke.at_s - self._last_at_s
        was_slow, self._was_slow = self._was_slow, _TYPING_GAP_S < gap_s <= _LONGEST_GAP_S
        self._last_at_s = stroke.at_s
        return gap_s > _LONGEST_GAP_S or (was_slow and self._was_slow)

    def _is_one_key_held_down(self) -> bool:
        """Whether as many keys as make a scan are one and the same."""
        return len(self._held) >= _FEWEST_CHARACTERS and len({one.key for one in self._held}) == 1

    def _end(self, stroke: Stroke) -> list[Scanned | Stroke]:
        """What a closing key decides; the second half of a scanner's line end says nothing."""
        if not self._held:
            is_rest_of_scan = stroke.at_s - self._ended_at_s <= _LONGEST_GAP_S
            return [] if is_rest_of_scan else [stroke]
        decided = self._close()
        if isinstance(decided[0], Scanned):
            self._ended_at_s = stroke.at_s
            return decided
        return [*decided, stroke]

    def _close(self) -> list[Scanned | Stroke]:
        """The held keys as what they turned out to be."""
        scans = _scans(self._held)
        strokes = self._release()
        return [*scans] or strokes

    def _release(self) -> list[Scanned | Stroke]:
        """The held keys as a person's."""
        strokes, self._held = self._held, []
        return [*strokes]
