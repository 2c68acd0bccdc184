"""The five moments README tells of, typed as they stand there, on any day."""

import json
import re
import shlex
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from stockroom.cli.app import main
from tests.demo.shops import DAYS, at, copied

README = Path(__file__).parents[2] / "README.md"
HEADING = "## Five moments to try"
FRIDAY_PRINT, OLDER_SOUND, FROM_THE_VAN, TAPE, RECALL = range(5)


def moments() -> list[list[str]]:
    """The commands of each moment, as README has them."""
    section = README.read_text("utf-8").partition(HEADING)[2].partition("\n## ")[0]
    blocks = re.findall(r"```\n(.*?)```", section, re.DOTALL)
    return [block.splitlines() for block in blocks]


@dataclass
class Keyboard:
    """A person at a copy of the shop, at nine in the morning of its day."""

    book: Path
    today: date
    capture: pytest.CaptureFixture[str]
    said: str = field(default="", init=False)

    def types(self, command: str) -> str:
        """What a command says that must work, hints and warnings too."""
        program, *words = shlex.split(command)
        assert program == "stockroom"
        self.capture.readouterr()
        code = main(["--book", str(self.book), *words])
        printed = self.capture.readouterr()
        assert code == 0, printed.err
        return printed.out + printed.err

    def plays(self, moment: int) -> list[str]:
        """What each command of a moment says."""
        return [self.types(command) for command in moments()[moment]]

    def values(self, command: str) -> dict[str, Any]:
        """What a command prints for a script."""
        found: dict[str, Any] = json.loads(self.types(f"{command} --json"))
        return found

    def piece(self, command: str) -> dict[str, Any]:
        """The piece that a command of README names first."""
        (code, *_) = re.findall(r"\b[RCB]\d{6}\w\b", command)
        return self.values(f"stockroom piece {code}")


@pytest.fixture(params=DAYS, ids=str)
def keyboard(
    request: pytest.FixtureRequest,
    shop_of: Callable[[date], Path],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Keyboard:
    """A day, and a copy of its shop."""
    today: date = request.param
    monkeypatch.setattr("stockroom.cli.desk.clock", lambda: at(today, 9))
    return Keyboard(copied(shop_of(today), tmp_path), today, capsys)


def test_readme_tells_five_moments() -> None:
    """Each with commands to type."""
    assert len(moments()) == 5
    assert all(moments())


def test_the_friday_print_has_been_rolled_too_long(keyboard: Keyboard) -> None:
    """It is on Today under its job; the film it is printed on anew is the oldest sound one."""
    morning = keyboard.values("stockroom today")
    card, printed, discarded = keyboard.plays(FRIDAY_PRINT)
    told = next(one for one in morning["pieces"] if one["code"] in moments()[FRIDAY_PRINT][0])
    job = next(one for one in morning["jobs"] if one["code"] == told["job"])
    evening = keyboard.values("stockroom today")

    assert told["verdict"] == "TEST"
    assert 96 <= told["wound_days"] <= 98
    assert "days wound, limit 90 (default): curl trial" in card
    assert date.fromisoformat(job["on_day"]).weekday() == 4
    assert 0 <= (date.fromisoformat(job["on_day"]) - keyboard.today).days < 7
    assert told["tile"] in printed
    assert "older sound" not in printed
    assert "nothing left" in discarded
    assert told["code"] not in {one["code"] for one in evening["pieces"]}


def test_the_older_sound_roll_is_named_and_taken(keyboard: Keyboard) -> None:
    """The newer roll says so; the older one is to be used first."""
    newer, older = (keyboard.piece(moments()[OLDER_SOUND][step]) for step in (0, 2))
    hint, _, taken = keyboard.plays(OLDER_SOUND)

    assert "An older sound piece would do" in hint
    assert older["code"] in hint.replace(" ", "")
    assert (newer["verdict"], older["verdict"]) == ("USE", "USE FIRST")
    assert newer["shelf_days"] < older["shelf_days"]
    assert "An older sound piece" not in taken


def test_a_roll_comes_back_from_the_van(keyboard: Keyboard) -> None:
    """What is less than went out was used for the job."""
    out, came = keyboard.plays(FROM_THE_VAN)
    roll = keyboard.piece(moments()[FROM_THE_VAN][1])

    assert roll["code"] in out.replace(" ", "")
    assert "OUT van 2" in out
    assert "7.88 m used for" in came
    assert (roll["left_mm"], roll["out_to"]) == (22_600, None)


def test_a_tape_round_a_roll_disagrees_with_the_books(keyboard: Keyboard) -> None:
    """The tape is believed; what nobody wrote down is charged when somebody remembers."""
    before = keyboard.piece(moments()[TAPE][0])
    counted, charged = keyboard.plays(TAPE)
    after = keyboard.piece(moments()[TAPE][0])

    assert "16.93 m left, the books said 20.49 m" in counted
    assert (before["left_mm"], after["left_mm"]) == (20_490, pytest.approx(16_927.7, abs=0.1))
    assert "charge 3.5 m" in charged


def test_a_lot_is_recalled_and_let_go(keyboard: Keyboard) -> None:
    """Rolls, an offcut and laminated prints of the lot stop, and are sound again."""
    before = keyboard.values("stockroom today")["counts"]
    held, morning, released = keyboard.plays(RECALL)
    after = keyboard.values("stockroom today")["counts"]

    assert "6 pieces of lot G-7204" in held
    assert {"R", "C"} == set(re.findall(r"^  ([RC])\d", held, re.MULTILINE))
    assert f"{before['STOP'] + 6} stopped" in morning
    assert "6 pieces of lot G-7204" in released
    assert after == before


def test_nothing_is_broken_by_all_of_it(keyboard: Keyboard) -> None:
    """Played one after the other, they leave a book that agrees with itself."""
    for moment in range(5):
        keyboard.plays(moment)

    assert "agrees with itself" in keyboard.types("stockroom verify")
