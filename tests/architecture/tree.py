"""The checkout as text: its folders, its modules, and what they call."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
HOUSE = ROOT / "stockroom"
KEPT = ("stockroom", "tests", "demo", "scripts", ".ci", ".gitattributes", ".gitignore")


def modules(*rooms: str) -> Iterator[Path]:
    """Every module of the rooms that are built; of the whole house when none is named."""
    for room in rooms or ("",):
        yield from sorted((HOUSE / room).rglob("*.py"))
        if (single := HOUSE / f"{room}.py").is_file():
            yield single


def called(module: Path, what: re.Pattern[str]) -> Iterator[str]:
    """Where a module calls something of that dotted name."""
    for node in ast.walk(ast.parse(module.read_text("utf-8"))):
        if isinstance(node, ast.Call) and what.search(name := ast.unparse(node.func)):
            yield f"{named(module)}:{node.lineno} {name}"


def kept_files() -> Iterator[Path]:
    """Every file that is committed, whether or not git is here to ask."""
    documents = [path for kind in ("*.md", "*.toml") for path in sorted(ROOT.glob(kind))]
    for place in [*documents, *(ROOT / name for name in KEPT)]:
        inside = sorted(place.rglob("*")) if place.is_dir() else [place]
        yield from (path for path in inside if path.is_file() and "__pycache__" not in path.parts)


def named(path: Path) -> str:
    """A path as a reader of the checkout would say it."""
    return path.relative_to(ROOT).as_posix()
