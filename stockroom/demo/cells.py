"""What stands in the columns of the invented shop's files, as the requests want it."""

from collections.abc import Iterator

from stockroom.demo.line import Line
from stockroom.units.typed import parse_length, parse_size
from stockroom.work.winding import Core


def length(text: str) -> int | None:
    """A length, or None where nothing stands."""
    return parse_length(text) if text else None


def difference(text: str) -> int:
    """A length more than nothing, or less; an empty one is none."""
    length_nm = parse_length(text.removeprefix("-") or "0", zero=True)
    return -length_nm if text.startswith("-") else length_nm


def makes(line: Line) -> tuple[list[str], tuple[tuple[int, int], ...]]:
    """The names of what comes of it, and the sizes of those that are cut out: `door=600x1400`."""
    pairs = [one.partition("=") for one in line["makes"].split()]
    sizes = tuple(parse_size(size) for _, _, size in pairs if size)
    return [name for name, _, _ in pairs], sizes


def core(line: Line) -> Core:
    """What a piece is wound on, if the line names a core or a tube."""
    return Core(
        inside_nm=length(line.more.get("core", "")),
        wall_nm=length(line.more.get("wall", "")),
        in_tube="tube" in line.more,
    )


def parts(line: Line) -> Iterator[tuple[str, int]]:
    """The parts of a kit: `parts=squeegee:2 spray bottle:1`."""
    names: list[str] = []
    for word in line.more["parts"].split():
        name, _, number = word.partition(":")
        names.append(name)
        if number:
            yield " ".join(names), int(number)
            names.clear()
