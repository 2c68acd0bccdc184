"""A logger's CSV file: how it was understood, what it says, and what is wrong with its lines.

read_log(text, told, now_s)   Log
  .understood                 how it was read, to be shown before anything is written
  .readings                   in order of time, one a second
  .findings                   by line; good lines are kept
"""

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.errors import Code, Refusal
from stockroom.feeds.reading import Finding, Reading
from stockroom.feeds.taking import take_lines
from stockroom.feeds.tidying import tidied
from stockroom.feeds.understanding import Told, Understood, understand


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """What a file says; so many lines were read, and each reading stands on the line beside it."""

    understood: Understood
    readings: Sequence[Reading]
    findings: Sequence[Finding]
    lines: int
    line_of: Sequence[int]


def read_log(text: str, told: Told, now_s: int) -> Log:
    """What a logger's file says; one of which nothing can be read is refused."""
    understood = understand(text, told, now_s)
    taken = take_lines(text, understood, now_s)
    places = tidied(taken, is_newest_first=understood.is_newest_first)
    findings = sorted(taken.findings, key=lambda one: (one.first_line, one.last_line))
    lines = len(taken.lines) + taken.lost
    if not places:
        said = f"; line {findings[0].first_line}: {findings[0].text}" if findings else ""
        raise Refusal(Code.BAD_FILE, f"None of its {lines} lines could be read{said}.")
    columns = (taken.at_s, taken.temperature_c, taken.rh_pct)
    values = zip(*(map(column.__getitem__, places) for column in columns), strict=True)
    return Log(
        understood=understood,
        readings=list(map(Reading._make, values)),
        findings=findings,
        lines=lines,
        line_of=[taken.lines[place] for place in places],
    )
