"""The one table of what a scan does on each screen, as the README shows it."""

from collections.abc import Mapping

SCREENS = ("Today, Rack, Climate, Buying, a card", "Goods in", "Bench", "Jobs, a job", "Log")

_REFUSED = "is refused in the band, with two bells"
_YES = f"is the person's yes to what is asked; else {_REFUSED}"
_CARD = "opens its card"

# What is scanned, and what it does on each of SCREENS.
SCANS: Mapping[str, tuple[str, ...]] = {
    "a piece": (
        _CARD,
        _CARD,
        "fills the piece; the line begun waits",
        "opens its card; on a job, takes it to the Bench for that job",
        "keeps to its acts",
    ),
    "a job": (
        "opens the Bench for it",
        "fills the job of a bought-in print",
        "fills the job",
        "opens it",
        "keeps to its acts",
    ),
    "a place": (
        "shows what stands there; on a card, asks whether to put the piece there",
        "fills the place",
        _REFUSED,
        "shows what stands there",
        _REFUSED,
    ),
    "an order": (
        "opens Goods in with what is to come of it",
        "adds what is to come of it",
        *("opens Goods in with what is to come of it",) * 3,
    ),
    "a person on the wall card": ("writes that person down from now on",) * len(SCREENS),
    "a digit on the wall card": (
        _REFUSED,
        "is typed where the cursor is",
        "is typed at the length",
        _REFUSED,
        _REFUSED,
    ),
    "OK on the wall card": (
        _YES,
        "is the person's Enter, or their yes",
        "is the person's Enter, or their yes",
        _YES,
        _YES,
    ),
    "out, in, back, undo": (
        f"on a card, asks as its key does; else {_REFUSED}",
        _REFUSED,
        "asks about the piece on the line; undo about your last act",
        _REFUSED,
        _REFUSED,
    ),
    "finished, spoiled": (
        _REFUSED,
        _REFUSED,
        "asks whether the core is bare or the box empty; cuts for no job",
        _REFUSED,
        _REFUSED,
    ),
    "a code that was misread": (_REFUSED,) * len(SCREENS),
    "any other code": (
        _REFUSED,
        "is typed where the cursor is, as a lot",
        _REFUSED,
        _REFUSED,
        _REFUSED,
    ),
}


def scans_page() -> str:
    """The table in Markdown."""
    heads = ("a scan of", *SCREENS)
    rows = [heads, ("---",) * len(heads), *((scan, *does) for scan, does in SCANS.items())]
    return "".join(f"| {' | '.join(row)} |\n" for row in rows)
