"""A scanner is told from a person, and no key of either is lost."""

from collections.abc import Iterable
from itertools import accumulate

import pytest

from stockroom.codes.burst import SILENCE_S, Burst, Scanned, Stroke
from stockroom.codes.own import Letter, build, numbers

KEYS = {
    "\r": "enter",
    "\n": "ctrl+j",
    "\t": "tab",
    " ": "space",
    "\x1d": "ctrl+right_square_bracket",
}
CONTROLS = {"\x10": "ctrl+p", "\x11": "ctrl+q", "\x1b": "escape"}
EIGHT = [build(Letter.ROLL, number) for number in numbers(Letter.ROLL, 0, 8)]


def strokes(
    text: str, gaps_s: float | Iterable[float] = 0.0, start_s: float = 10.0
) -> list[Stroke]:
    """The keys of a text, one gap apart, or with a gap before each key but the first."""
    gaps = [gaps_s] * (len(text) - 1) if isinstance(gaps_s, float) else gaps_s
    times = accumulate(gaps, initial=start_s)
    names = KEYS | CONTROLS
    return [Stroke(names.get(one, one), one, at) for one, at in zip(text, times, strict=True)]


def played(keys: Iterable[Stroke]) -> list[str]:
    """What a burst makes of keys and the silence after them: [a scan], or a typed key."""
    burst = Burst()
    last_s = 0.0
    decided: list[Scanned | Stroke] = []
    for key in keys:
        decided += burst.feed(key)
        last_s = key.at_s
    decided += burst.silence(last_s + SILENCE_S)
    assert not burst.is_waiting
    return [f"[{one.text}]" if isinstance(one, Scanned) else one.key for one in decided]


@pytest.mark.parametrize("suffix", ["\r", "\t", "\n", "\r\n", "\t\r", "\r\r", ""])
@pytest.mark.parametrize("prefix", ["", "]Q1"])
@pytest.mark.parametrize("gap_s", [0.0, 0.008, 0.016, 0.025, 0.045])
def test_eight_codes_with_no_pause_are_eight_scans(prefix: str, suffix: str, gap_s: float) -> None:
    """A device may end its codes as it likes, and leave no time between them."""
    stream = "".join(f"{prefix}{code}{suffix}" for code in EIGHT)

    assert played(strokes(stream, gap_s)) == [f"[{code}]" for code in EIGHT]


def test_a_closing_key_decides_without_waiting_for_silence() -> None:
    """The answer to a scan is there with its Enter."""
    burst = Burst()
    decided = [one for key in strokes("R0001231\r") for one in burst.feed(key)]

    assert decided == [Scanned("R0001231")]
    assert not burst.is_waiting


def test_two_devices_may_be_used_one_after_the_other() -> None:
    """Silence closes a scan also when the next one arrives before anybody told of it."""
    first = strokes("R0001231", 0.008)
    second = strokes("LOT4411\r", 0.008, start_s=first[-1].at_s + 0.2)

    assert played(first + second) == ["[R0001231]", "[LOT4411]"]


def test_a_makers_code_keeps_its_group_separators() -> None:
    """The separator is known by the name of its key, with or without its character."""
    keys = strokes("]C110AB12\x1d21R7\r", 0.008)
    nameless = [Stroke(one.key, None, one.at_s) if one.character == "\x1d" else one for one in keys]

    assert played(keys) == ["[10AB12\x1d21R7]"]
    assert played(nameless) == ["[10AB12\x1d21R7]"]


def test_control_keys_inside_a_scan_neither_quit_nor_open_anything() -> None:
    """What a label may hold besides text is swallowed with it."""
    assert played(strokes("LOT\x11\x1044\x1b11\r", 0.008)) == ["[LOT4411]"]


def test_a_short_text_with_an_identifier_is_a_scan() -> None:
    """Only a scanner sends a symbology identifier."""
    assert played(strokes("]E07\r", 0.008)) == ["[7]"]


def test_a_scan_survives_one_hiccup_of_the_terminal() -> None:
    """One gap as long as a typist's does not break a code in two."""
    hiccup = [0.008] * 3 + [0.11] + [0.008] * 5

    assert played(strokes("MAKER4411\r", hiccup)) == ["[MAKER4411]"]


def test_a_scan_is_cut_at_512_characters() -> None:
    """A flood is one scan that nobody knows, and nothing of it is typed."""
    [scan] = played(strokes("ab" * 2000 + "\r"))

    assert scan == f"[{'ab' * 256}]"


@pytest.mark.parametrize("gap_s", [0.065, 0.1, 0.15, 0.3])
def test_a_typed_code_stays_typed(gap_s: float) -> None:
    """At a person's pace every key goes where it was meant to go, in order."""
    assert played(strokes("R0001231\r", gap_s)) == [*"R0001231", "enter"]


@pytest.mark.parametrize("text", ["3.2m\r", "ab\t", "q", "12345\r", "\r", "\x11", "\x1b"])
def test_few_keys_are_never_a_scan_however_fast(text: str) -> None:
    """A length on a fast keypad is a length."""
    names = KEYS | CONTROLS

    assert played(strokes(text)) == [names.get(one, one) for one in text]


def test_a_typist_waits_for_one_key_at_most() -> None:
    """While a person types steadily only the newest key is held back."""
    burst = Burst()
    given = [len(burst.feed(key)) for key in strokes("urethane", 0.1)]

    assert given == [0, 0, 2, 1, 1, 1, 1, 1]


def test_a_lone_letter_is_given_back_after_silence() -> None:
    """A letter that is a command waits until it is known that no scan begins with it."""
    burst = Burst()
    [key] = strokes("u")

    assert burst.feed(key) == []
    assert burst.is_waiting
    assert burst.silence(key.at_s + SILENCE_S / 2) == []
    assert burst.silence(key.at_s + SILENCE_S) == [key]
    assert burst.silence(key.at_s + 1) == []


def test_a_key_that_begins_no_scan_is_not_held_back() -> None:
    """Arrows, function keys, Enter and Escape act at once."""
    burst = Burst()
    for name in ("down", "f1", "enter", "escape", "ctrl+q", "tab"):
        key = Stroke(name, None, 10.0)
        assert burst.feed(key) == [key]
        assert not burst.is_waiting


def test_a_key_held_down_is_not_a_scan() -> None:
    """A keyboard repeats a key every 33 ms; each repeat is given back."""
    assert played(strokes("j" * 40, 0.033)) == ["j"] * 40
    assert played(strokes("0" * 9 + "\r", 0.033)) == [*"0" * 9, "enter"]


def test_editing_keys_keep_their_place_among_typed_ones() -> None:
    """A quick correction is neither lost nor moved."""
    keys = [Stroke("3", "3", 1.0), Stroke("backspace", "\x7f", 1.05), Stroke("4", "4", 1.1)]

    assert played(keys) == ["3", "backspace", "4"]


def test_an_enter_of_a_person_after_a_scan_is_kept() -> None:
    """Only a closing key that follows within a burst's gap belongs to the scan."""
    scan = strokes("R0001231\r", 0.008)
    enter = Stroke("enter", "\r", scan[-1].at_s + 0.3)

    assert played([*scan, enter]) == ["[R0001231]", "enter"]


def test_codes_of_the_book_are_only_parted_when_nothing_else_is_between() -> None:
    """A maker's code that happens to begin like one of ours stays whole."""
    assert played(strokes("R0001231ABC\r", 0.008)) == ["[R0001231ABC]"]
    assert played(strokes("R0001231R0001232\r", 0.008)) == ["[R0001231R0001232]"]
