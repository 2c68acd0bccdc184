"""What belongs to this station: the book it opens, who works at it, its labels and theme.

Defaults, then the settings file, then STOCKROOM_… in the environment, then options typed. What
the whole shop shares is kept in the book.
"""

import getpass
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from platformdirs import user_config_path, user_data_path

from stockroom.errors import Code, Refusal, clean_text

THEMES = ("light", "dark", "high-contrast")
MONEY = ("hidden", "shown")
SWITCH = ("on", "off")


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """One station's settings."""

    book: str = ""
    """The stock book: a file, or postgresql://…; empty means the user's own data folder."""
    operator: str = ""
    """Who works at this station; empty means the name signed on to the computer."""
    label_size: str = "62x29"
    """The label this station prints, width x height in millimetres."""
    dpi: int = 203
    """The dots per inch of this station's printer."""
    theme: str = "dark"
    """How the screens look: light, dark or high-contrast."""
    money: str = "hidden"
    """Whether the screens of this station show prices and costs: hidden or shown."""
    mqtt_host: str = "localhost"
    """Where the broker of the sensors is."""
    mqtt_port: int = 0
    """Its port; 0 is the registered one, 1883, or 8883 with TLS."""
    mqtt_topic: str = "shop/zone/+/climate"
    """The topics of the sensors; the name of each stands where the + is."""
    mqtt_client: str = "stockroom"
    """Our name at the broker, under which it keeps what comes while nobody listens."""
    mqtt_user: str = ""
    """Who we are at the broker; empty where it asks nobody."""
    mqtt_password: str = field(default="", repr=False)
    """The password of that user."""
    mqtt_tls: str = "off"
    """Whether the connection is encrypted: on or off."""
    mqtt_ca: str = ""
    """A file with the certificates to trust; empty means those this machine trusts."""

    def book_or_default(self) -> str:
        """Where the book is."""
        return self.book or str(user_data_path("stockroom") / "book.db")

    def operator_or_default(self) -> str:
        """Who is written down as having done something."""
        return clean_text(self.operator or _signed_on(), 60) or "unknown"


def settings_path() -> Path:
    """Where the settings file of this user is."""
    return user_config_path("stockroom") / "settings.toml"


def read_settings(environment: Mapping[str, str], path: Path) -> Settings:
    """The station's settings; a key nobody knows is refused with the nearest one."""
    found = Settings()
    if path.is_file():
        found = replace(found, **_checked(_file(path), str(path)))
    known = {name: f"STOCKROOM_{name.upper()}" for name in _NAMES}
    typed = {
        name: _typed(name, environment[variable], variable)
        for name, variable in known.items()
        if environment.get(variable)
    }
    return replace(found, **_checked(typed, "the environment"))


_NAMES = tuple(one.name for one in fields(Settings))
_NUMBERS = {"dpi": "dots per inch, like 203", "mqtt_port": "a port, like 1883"}
_MOST_DIGITS = 9
_CHOICES = {"theme": THEMES, "money": MONEY, "mqtt_tls": SWITCH}


def _file(path: Path) -> dict[str, object]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise Refusal(Code.BAD_SETTING, f"{path} cannot be read: {error}.") from error


def _typed(name: str, text: str, variable: str) -> str | int:
    if name not in _NUMBERS:
        return text
    if not text.isascii() or not text.isdigit() or len(text) > _MOST_DIGITS:
        raise Refusal(Code.BAD_SETTING, f"{variable} is a whole number, {_NUMBERS[name]}.")
    return int(text)


def _checked(given: Mapping[str, Any], where: str) -> dict[str, Any]:
    checked: dict[str, Any] = {}
    for key, value in given.items():
        name = key.replace("-", "_")
        if name not in _NAMES:
            near = get_close_matches(name, _NAMES, n=1)
            hint = f"did you mean {near[0]}?" if near else f"known are {', '.join(_NAMES)}."
            raise Refusal(
                Code.BAD_SETTING, f"{where}: “{clean_text(key, 40)}” is no setting: {hint}"
            )
        if type(value) is not type(getattr(Settings(), name)):
            raise Refusal(Code.BAD_SETTING, f"{where}: {name} has a value of the wrong kind.")
        checked[name] = value
    for name, choices in _CHOICES.items():
        if checked.get(name, choices[0]) not in choices:
            raise Refusal(Code.BAD_SETTING, f"{where}: {name} is one of {', '.join(choices)}.")
    return checked


def _signed_on() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
