"""The log as a screen shows it.

LogWanted              which acts: of a piece, a job, a person, a day, a kind
kind_called(word, …)   the kind of act a word stands for, as the list says it
said(wanted, …)        R000 1231 · Ida M. · Tue 2026-11-24
cells(act, …)          12, 2026-11-18 09:12, R000 1231 +1, cut 3.2 m for J000 046K, Ida M.
detail(act, …)         the other pieces, the remark, when it was written down
touched(act, …)        each piece the act touched: what it did there, by how much, what stayed
refused_undo(act)      why an act cannot be undone at all
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date

from stockroom.books.journal import Sought
from stockroom.books.values import Act, Place, Shop
from stockroom.errors import Code, Refusal
from stockroom.lines import words
from stockroom.lines.text_acts import act_words, subject
from stockroom.lines.text_done import amount

NOTHING_HERE = "Nothing was written yet: bring a roll in first."
NONE_LIKE_THAT = "No act is like that: Esc shows every act again."


@dataclass(frozen=True, slots=True, kw_only=True)
class LogWanted:
    """Which acts are asked for; None means all."""

    piece: str | None = None
    job: str | None = None
    operator: str | None = None
    day: date | None = None
    kind: str | None = None

    def sought(self, shop: Shop) -> Sought:
        """The same for the journal, with the shop day as two instants."""
        sought: Sought = {
            "piece": self.piece,
            "job": self.job,
            "operator": self.operator,
            "kind": self.kind,
        }
        if self.day is not None:
            sought["since"] = shop.begin_of(self.day).astimezone(UTC)
            sought["until"] = shop.end_of(self.day)
        return sought


EVERY_ACT = LogWanted()


def said(wanted: LogWanted) -> str:
    """What the acts that are shown were chosen by."""
    by = (
        words.code(wanted.piece) if wanted.piece else "",
        f"for {words.code(wanted.job)}" if wanted.job else "",
        f"by {wanted.operator}" if wanted.operator else "",
        f"{wanted.day:%a} {words.day(wanted.day)}" if wanted.day else "",
        f"only {wanted.kind}" if wanted.kind else "",
    )
    return "  ·  ".join(filter(None, by)) or "every act"


def kind_called(word: str, acts: Sequence[Act], shop: Shop) -> str | None:
    """The kind of act a word stands for: its own name, or how the list begins to say it."""
    wanted = word.casefold()
    for act in acts:
        if wanted in (act.kind, act_words(act, shop, ()).casefold().partition(" ")[0]):
            return act.kind
    return None


def cells(act: Act, shop: Shop, places: Sequence[Place]) -> tuple[str, ...]:
    """One act."""
    return (
        words.moment(act.at, shop),
        subject(act),
        act_words(act, shop, places),
        act.operator,
        str(act.id),
    )


def title(act: Act, shop: Shop) -> str:
    """Which act it is."""
    return f"Act {act.id} · {words.moment(act.at, shop)} · {act.operator}"


def detail(act: Act, shop: Shop) -> str:
    """What else belongs to an act."""
    codes = [words.code(code) for code in _codes(act)]
    parts = [f"act {act.id} undone since" if act.is_reversed else f"act {act.id}"]
    if len(codes) > 1:
        parts.append(f"{words.counted(len(codes), 'piece')}: {', '.join(codes)}")
    if act.job is not None:
        parts.append(f"job {words.code(act.job)}")
    # What came into the books later than it was done was remembered, not seen.
    if words.moment(act.recorded_at, shop) != words.moment(act.at, shop):
        parts.append(f"written down {words.moment(act.recorded_at, shop)}")
    if act.note:
        parts.append(act.note)
    return " · ".join(parts)


def touched(act: Act, shop: Shop, places: Sequence[Place]) -> dict[str, tuple[str, ...]]:
    """Each piece an act touched: its code, what was done to it, the difference, what stayed."""
    return {code: _touched(code, act, shop, places) for code in _codes(act)}


def _touched(code: str, act: Act, shop: Shop, places: Sequence[Place]) -> tuple[str, ...]:
    moves = act.moves_of(code)
    delta = sum(move.delta for move in moves)
    change = f"{'-' if delta < 0 else '+'}{amount(code, abs(delta), shop)}" if delta else ""
    what = act_words(act, shop, places, piece=code)
    return words.code(code), what, change, amount(code, moves[-1].balance, shop)


def _codes(act: Act) -> tuple[str, ...]:
    return tuple(dict.fromkeys(move.piece for move in act.moves))


def undo_question(act: Act, shop: Shop, places: Sequence[Place]) -> str:
    """Whether an act is to be reversed."""
    when, piece, what, by, _ = cells(act, shop, places)
    return f"undo what {by} did {when}: {piece} {what}?"


def refused_undo(act: Act) -> Refusal | None:
    """Why an act cannot be undone, whatever the book says of its pieces."""
    if act.is_reversed:
        return Refusal(Code.NOTHING_TO_UNDO, f"Act {act.id} is undone already.")
    if act.reverses is not None:
        return Refusal(
            Code.NOTHING_TO_UNDO, f"Act {act.id} is an undo: do again what it took back."
        )
    if not act.moves:
        return Refusal(
            Code.NOTHING_TO_UNDO,
            f"Act {act.id} touched no piece: a job is closed and reopened on the screen Jobs.",
        )
    return None
