"""A station's settings: defaults, then the file, then the environment; a wrong key is named."""

import getpass
from pathlib import Path
from typing import Any

import pytest

from stockroom.errors import Code, Exit, Refusal
from stockroom.settings import Settings, read_settings, settings_path


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the settings file of the tests is, or will be."""
    return tmp_path / "settings.toml"


def _refusal(path: Path, environment: dict[str, str] | None = None) -> Refusal:
    with pytest.raises(Refusal) as caught:
        read_settings(environment or {}, path)
    assert caught.value.code is Code.BAD_SETTING
    assert caught.value.exit is Exit.NOT_UNDERSTOOD
    assert len(caught.value.sentence.splitlines()) == 1
    return caught.value


def test_without_file_and_environment_there_are_defaults(path: Path) -> None:
    """A new station works at once."""
    assert read_settings({}, path) == Settings()
    assert Settings().book_or_default().endswith("book.db")
    assert Settings().operator_or_default()


def test_the_file_goes_over_defaults_and_the_environment_over_the_file(path: Path) -> None:
    """What is nearer to the person wins; what nobody says stays as it was."""
    path.write_text('book = "a.db"\noperator = "Ida M."\ndpi = 300\nlabel-size = "50x25"\n')

    found = read_settings({"STOCKROOM_BOOK": "b.db", "STOCKROOM_THEME": "light"}, path)

    assert found == Settings(
        book="b.db", operator="Ida M.", dpi=300, label_size="50x25", theme="light"
    )


def test_an_empty_variable_says_nothing(path: Path) -> None:
    """A shell that unsets badly does not unset a book."""
    path.write_text('book = "a.db"\n')

    assert read_settings({"STOCKROOM_BOOK": "", "STOCKROOM_DPI": ""}, path).book == "a.db"


def test_the_dots_of_a_printer_come_from_the_environment_as_a_number(path: Path) -> None:
    """A variable is always text."""
    assert read_settings({"STOCKROOM_DPI": "300"}, path).dpi == 300


def test_a_password_is_read_and_never_shown(path: Path) -> None:
    """Neither by whoever prints the settings, nor by a refusal."""
    found = read_settings({"STOCKROOM_MQTT_PASSWORD": "s3cret", "STOCKROOM_MQTT_USER": "app"}, path)
    path.write_text("mqtt-password = 9717133\nmqtt-port = 'x'\n")

    assert (found.mqtt_user, found.mqtt_password) == ("app", "s3cret")
    assert "s3cret" not in repr(found)
    assert "9717133" not in _refusal(path).sentence


@pytest.mark.parametrize(
    ("wrong", "near"),
    [("bok", "book"), ("operater", "operator"), ("label-sise", "label_size"), ("tema", "theme")],
)
def test_a_wrong_key_is_refused_with_the_nearest(path: Path, wrong: str, near: str) -> None:
    """And with the file it stands in."""
    path.write_text(f'{wrong} = "x"\n')

    refusal = _refusal(path)

    assert f"did you mean {near}?" in refusal.sentence
    assert path.name in refusal.sentence


def test_a_key_like_no_other_is_refused_with_all_there_are(path: Path) -> None:
    """Nothing is near it."""
    path.write_text("qqqqq = 1\n")

    assert "known are book, operator" in _refusal(path).sentence


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("dpi = '300'\n", "dpi"),
        ("dpi = true\n", "dpi"),
        ("book = 3\n", "book"),
        ("theme = 'purple'\n", "light, dark"),
        ("money = 'maybe'\n", "hidden, shown"),
        ("book = \n", "cannot be read"),
        ("book = 'a'\nbook = 'b'\n", "cannot be read"),
        ('"\\u001b[31mbook" = 1\n', "no setting"),
    ],
)
def test_a_file_that_says_nonsense_is_refused(path: Path, text: str, says: str) -> None:
    """In one line without anything a terminal obeys."""
    path.write_text(text)

    refusal = _refusal(path)

    assert says in refusal.sentence
    assert "\x1b" not in refusal.sentence


def test_a_file_that_is_no_text_is_refused(path: Path) -> None:
    """A picture is no settings file."""
    path.write_bytes(b"\x89PNG\xff\xfe")

    assert "cannot be read" in _refusal(path).sentence


@pytest.mark.parametrize(
    ("variable", "value"),
    [
        ("STOCKROOM_DPI", "many"),
        ("STOCKROOM_DPI", "-3"),
        ("STOCKROOM_DPI", "\u0663\u0660\u0660"),
        ("STOCKROOM_THEME", "purple"),
        ("STOCKROOM_MQTT_PORT", "8" * 5_000),
        ("STOCKROOM_MQTT_TLS", "maybe"),
    ],
)
def test_a_variable_that_says_nonsense_is_refused(path: Path, variable: str, value: str) -> None:
    """Like a file that does."""
    _refusal(path, {variable: value})


def test_variables_of_others_are_left_alone(path: Path) -> None:
    """Only the names of settings are looked at."""
    assert read_settings({"STOCKROOM_REQUIRE_POSTGRESQL": "1", "HOME": "x"}, path) == Settings()


def test_an_operator_is_cleaned_and_never_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    """The name goes into the journal for good."""

    def nobody() -> str:
        raise OSError

    assert Settings(operator="Ida\n\x1b[1mM.").operator_or_default() == "Ida [1mM."
    assert len(Settings(operator="x" * 500).operator_or_default()) == 60
    monkeypatch.setattr(getpass, "getuser", nobody)
    assert Settings().operator_or_default() == "unknown"


def test_the_file_lies_in_the_folder_of_the_user(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the desktop says that settings are."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    answers: list[Any] = [settings_path().name, tmp_path in settings_path().parents]

    assert answers == ["settings.toml", True]
