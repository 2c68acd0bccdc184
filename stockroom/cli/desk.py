"""What every command stands on: the options all share, an open book, and how an answer leaves.

@writes      the command gets a Desk; a missing book is made; --book --by --at --request --json
@sets_up     the same for what is in force from an instant on: --book --by --at --json
@enters      the same for what has no time: --book --by --json
@reads       a missing book is refused; --book --json
@reports     the same, for a day that may be chosen: --book --today --json

The command returns an Answer: values for --json, lines for people, notes beside them.
"""

import os
import shutil
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import wraps
from inspect import Parameter, Signature, signature
from typing import TYPE_CHECKING, Annotated, Any, TypedDict, TypeVar
from uuid import uuid4

import typer

from stockroom.cli.door import Door
from stockroom.cli.saying import Answer, say
from stockroom.errors import Code, Refusal, clean_text
from stockroom.lines.when import is_day, read_day, read_instant
from stockroom.settings import Settings, read_settings, settings_path

if TYPE_CHECKING:
    from stockroom.books.opening import Book
    from stockroom.books.values import Shop, Standing

T = TypeVar("T")

NAMES, NOTES, LOTS = 120, 200, 60
"""How long names, reasons and lots may be; what is longer is cut."""


class Asking(TypedDict):
    """What a request to write carries beside its own content."""

    request: str
    operator: str
    at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """The shared options as they were typed."""

    book: str | None = None
    by: str | None = None
    at: str | None = None
    request: str | None = None
    today: str | None = None
    as_json: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """A book, and what the command was told beside its own options."""

    door: "Door"
    shop: "Shop"
    settings: Settings
    told: Told
    now: datetime

    @property
    def book(self) -> "Book":
        """The open book; one that is not there yet is made now, after all words were understood."""
        return self.door.open()

    @property
    def today(self) -> date | None:
        """The day a report is asked for; None is the running one."""
        return None if self.told.today is None else read_day(self.told.today)

    @property
    def width(self) -> int:
        """The columns of the terminal, 80 where there is none."""
        return shutil.get_terminal_size((80, 24)).columns

    @property
    def operator(self) -> str:
        """Who is written down."""
        name = clean_text(self.told.by or "", LOTS)
        return name or self.settings.operator_or_default()

    def standing(self, code: str) -> "Standing":
        """A piece as it stands now."""
        from stockroom.work.look import piece

        return piece(self.book, code, now=self.now).judged.standing

    def asked(self, *pieces: str) -> Asking:
        """Who asks, under which id, and when it happened to these pieces."""
        request = uuid4().hex if self.told.request is None else _request(self.told.request)
        return Asking(request=request, operator=self.operator, at=self._at(request, pieces))

    def _at(self, request: str, pieces: Sequence[str]) -> datetime | None:
        """The instant that was typed; a day alone fits in behind what was done on it before."""
        from stockroom.work.look import act_of

        text = self.told.at
        if text is None:
            return None
        at = read_instant(text, self.shop, self.now)
        if not is_day(text):
            return at
        if (before := act_of(self.book, request)) is not None:
            return before.at
        lasts = [self.standing(one).piece.last_at for one in pieces]
        day = self.shop.day_of(at)
        return max([at, *(last for last in lasts if self.shop.day_of(last) == day)])


Command = Callable[..., Answer]


def clock() -> datetime:
    """The present; the only place where a command reads it."""
    return datetime.now(UTC)


_SHARED = {
    "book": Annotated[
        str | None, typer.Option(metavar="BOOK", help="The stock book: a file, or postgresql://…")
    ],
    "by": Annotated[str | None, typer.Option(metavar="NAME", help="Who did it.")],
    "at": Annotated[
        str | None,
        typer.Option(
            metavar="TIME",
            help="When it happened, like yesterday 16:00, 2025-03-14T16:30; else now.",
        ),
    ],
    "request": Annotated[
        str | None,
        typer.Option(metavar="ID", help="Asked again with the same id, it is done once."),
    ],
    "today": Annotated[
        str | None, typer.Option(metavar="DAY", help="As of another day, like 2025-03-14.")
    ],
    "as_json": Annotated[bool, typer.Option("--json", help="Print values; keys carry units.")],
}


def writes(work: Command) -> Callable[..., None]:
    """A command that appends an act."""
    return _offered(work, "book", "by", "at", "request", "as_json", makes=True)


def sets_up(work: Command) -> Callable[..., None]:
    """A command that puts something in force, from an instant on."""
    return _offered(work, "book", "by", "at", "as_json", makes=True)


def enters(work: Command) -> Callable[..., None]:
    """A command that enters what has no time."""
    return _offered(work, "book", "by", "as_json", makes=True)


def reads(work: Command) -> Callable[..., None]:
    """A command that only looks."""
    return _offered(work, "book", "as_json", makes=False)


def reports(work: Command) -> Callable[..., None]:
    """A command that looks as of a day."""
    return _offered(work, "book", "today", "as_json", makes=False)


def _offered(work: Command, *names: str, makes: bool) -> Callable[..., None]:
    """The command as Typer sees it: its own options, then the shared ones; it gets a Desk."""
    _, *own = signature(work, eval_str=True).parameters.values()

    @wraps(work)
    def run(ctx: typer.Context, **given: Any) -> None:
        told = Told(**{name: given.pop(name) for name in names})
        with _opened(told, ctx.obj, makes=makes) as desk:
            answer = work(desk, **given)
        say(answer, as_json=told.as_json)

    offered = [
        _option("ctx", typer.Context, Parameter.empty),
        *(_option(one.name, one.annotation, one.default) for one in own),
        *(_option(name, _SHARED[name], False if name == "as_json" else None) for name in names),
    ]
    run.__signature__ = Signature(offered)  # type: ignore[attr-defined]
    run.__annotations__ = {one.name: one.annotation for one in offered}
    return run


def _option(name: str, annotation: Any, default: Any) -> Parameter:
    return Parameter(name, Parameter.KEYWORD_ONLY, annotation=annotation, default=default)


@contextmanager
def _opened(told: Told, named_before: str | None, *, makes: bool) -> Iterator[Desk]:
    from stockroom.books.values import Shop
    from stockroom.work.setup import settings as shared

    station, named = named_book(told.book, named_before)
    door = Door(named or station.book_or_default(), makes=makes, is_default=not named)
    now = clock()
    try:
        shop = shared(door.open(), now=now)[0] if door.is_there() else Shop()
        yield Desk(door=door, shop=shop, settings=station, told=told, now=now)
    finally:
        door.close()


def named_book(*named: str | None) -> tuple[Settings, str]:
    """The station's settings, and the book as it is named nearest; empty where it is nowhere."""
    station = read_settings(os.environ, settings_path())
    if "" in named:
        raise Refusal(Code.BAD_USAGE, "--book needs the name of a file, or postgresql://…")
    return station, next(filter(None, named), station.book)


def note(text: str | None) -> str:
    """A reason or a remark, made harmless."""
    return plain(text or "", NOTES)


def name(text: str) -> str:
    """A name, made harmless."""
    return plain(text, NAMES)


def plain(text: str, longest: int) -> str:
    """A text made harmless; one that is too long is refused rather than cut short."""
    clean = clean_text(text, longest + 1)
    if len(clean) > longest:
        raise Refusal(
            Code.BAD_NAME, f"“{clean[:20]}…” is too long: write at most {longest} characters."
        )
    return clean


def maybe(text: str | None, read: Callable[[str], T]) -> T | None:
    """What was typed, read; None where nothing was typed."""
    return None if text is None else read(text)


def _request(text: str) -> str:
    if not text or clean_text(text, NAMES) != text:
        raise Refusal(Code.BAD_USAGE, f"A request id is plain text of 1 to {NAMES} characters.")
    return text
