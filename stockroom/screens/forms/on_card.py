"""What lies open where a form is asked for: a piece, and what can be named beside it."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from stockroom.books.values import Act, Job, Place, Shop
from stockroom.codes.own import Letter, grouped, read_job
from stockroom.film.verdict import Verdict
from stockroom.lines import text_done
from stockroom.lines.today import named
from stockroom.screens.form import Blank, Field
from stockroom.screens.station import Station
from stockroom.work.look import Card

_ROOM = 50
"""So many characters of names stand in a line of a form."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnCard:
    """A piece's card at a station, the places there are, and the jobs to choose from."""

    station: Station
    card: Card
    places: Sequence[Place]
    jobs: Sequence[Job] = ()
    """The open ones, each chosen by its number, counted from 1."""
    job: Job | None = None
    """The one that stands on the line."""
    went_to: str = ""
    """Where the piece before it went."""

    @property
    def code(self) -> str:
        """The code of the piece."""
        return self.card.judged.code

    @property
    def form(self) -> str:
        """Whether it is a roll, an offcut or a box."""
        return self.card.judged.standing.state.form

    @property
    def is_stopped(self) -> bool:
        """Whether it is taken only with a reason."""
        judged = self.card.judged
        return judged.judgement.verdict is Verdict.STOP and judged.standing.state.held is None

    @property
    def shop(self) -> Shop:
        """What the whole shop shares."""
        return self.card.view.shop

    def said(self, act: Act) -> str:
        """What an act on the piece did."""
        return " ".join(text_done.act(act, self.code, self.shop, self.places))

    def place_field(self, name: str, hint: str = "", value: str = "") -> Field:
        """A line that asks for a place, which can be scanned or named; by itself it names those there are."""
        names = {place.code: place.name for place in self.places}
        return Field(
            name=name,
            hint=hint or some_of(list(names.values())) or "a place, or scan its label",
            value=names.get(value, value),
            takes=Letter.PLACE,
            names=names,
        )

    def job_field(self, code: str = "", *, besides: str = "") -> Field:
        """The line that asks for a job, which can be scanned, numbered or named."""
        names = self._job_names()
        by_number = "its number below" if self.jobs else "type its code"
        return Field(
            name="job",
            hint=", ".join(filter(None, ("scan it", by_number, besides))),
            value=code and names.get(code, grouped(code)),
            takes=Letter.JOB,
            names=names,
        )

    def jobs_said(self) -> str:
        """The jobs beside their numbers."""
        return " · ".join(f"{number} {named(one)}" for number, one in enumerate(self.jobs, start=1))

    def job_code(self, text: str) -> str:
        """The code of the job that was named, by its number, its name or its code."""
        if text.isascii() and text.isdigit() and 0 < int(text) <= len(self.jobs):
            return self.jobs[int(text) - 1].code
        by_name = {name: code for code, name in self._job_names().items()}
        return by_name.get(text) or read_job(text)

    def _job_names(self) -> dict[str, str]:
        """The names by code, of those that cannot be mistaken for another's."""
        times = Counter(one.name for one in self.jobs)
        return {one.code: one.name for one in self.jobs if times[one.name] == 1}


BlankFor: TypeAlias = Callable[[OnCard], Blank]


def is_yes(text: str) -> bool:
    """Whether somebody said yes to a line of a form."""
    return text.casefold() in ("y", "yes")


def some_of(names: Sequence[str]) -> str:
    """As many names as a line has room for, and a sign that there are more."""
    for left_out in range(len(names)):
        said = ", ".join([*names[: len(names) - left_out], *(["…"] if left_out else [])])
        if len(said) <= _ROOM:
            return said
    return ""
