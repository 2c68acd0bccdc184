"""`stockroom person`: who works here."""

from typing import TYPE_CHECKING, Annotated

import typer

from stockroom.cli.desk import LOTS, Desk, enters, maybe, reads
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal, clean_text
from stockroom.units.typed import parse_count

if TYPE_CHECKING:
    from stockroom.books.people import Person

app = typer.Typer(help="Who works here, and the digit each answers to at the Bench.")

Name = Annotated[str, typer.Argument(metavar="NAME", help="As it is written beside what they do.")]
Key = Annotated[str | None, typer.Option(metavar="1..9", help="The digit they answer to.")]


@app.command()
@enters
def add(desk: Desk, called: Name, key: Key = None) -> Answer:
    """Enter a person."""
    from stockroom.work.people import AddPerson, add_a_person

    request = AddPerson(name=_name(called), key=maybe(key, parse_count), **desk.asked())
    return _said(add_a_person(request, book=desk.book))


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List everybody."""
    from stockroom.work.people import people

    known = people(desk.book)
    lines = [line for one in known for line in _said(one).lines]
    return Answer(
        values={"people": [_said(one).values for one in known]},
        lines=lines or ["Nobody is entered yet: `stockroom person add NAME --key 1`."],
    )


@app.command()
@enters
def change(
    desk: Desk,
    called: Name,
    new: Annotated[str | None, typer.Option("--name", metavar="NAME", help="A new name.")] = None,
    key: Key = None,
    no_key: Annotated[bool, typer.Option("--no-key", help="They answer to no digit.")] = False,
) -> Answer:
    """Change a name or a digit; what was done before keeps the name it was done under."""
    from stockroom.work.people import ChangePerson, change_a_person, person

    if (new is None and key is None and not no_key) or (key is not None and no_key):
        raise Refusal(Code.BAD_USAGE, "Say what changes: --name, and --key or --no-key.")
    known = person(desk.book, _name(called))
    kept = None if no_key else known.key
    request = ChangePerson(
        name=known.name,
        new_name=maybe(new, _name),
        key=kept if key is None else parse_count(key),
        **desk.asked(),
    )
    return _said(change_a_person(request, book=desk.book))


def _name(text: str) -> str:
    return clean_text(text, LOTS)


def _said(one: "Person") -> Answer:
    key = "-" if one.key is None else str(one.key)
    return Answer(values={"name": one.name, "key": one.key}, lines=[f"{key}  {one.name}"])
