"""The whole floor to test on: what a station does with vans, claims, places, lots, kits and bottles."""

from typing import Any

from stockroom.books.values import Act
from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.work.away import CameIn, ComeIn, GoOut, come_in, go_out
from stockroom.work.blind import BlindCounted, CountBlind, count_blind
from stockroom.work.bottle import Mix, Mixed, mix
from stockroom.work.kit import ListParts, PartBack, TakePart, list_parts, part_back, take_part
from stockroom.work.recall import HoldLot, ReleaseLot, hold_lot, release_lot
from stockroom.work.scrap import Scrap, scrap
from stockroom.work.sendback import Credit, SendBack, credit, send_back
from stockroom.work.setup import SetValue, set_value
from stockroom.work.stocktake import Seen, Taken, seen
from tests.builders import Station, expected

SOLUTION = "mounting solution"


class Floor(Station):
    """Somebody at work anywhere on the floor."""

    def go_out(self, piece: str, to: str = "van 2", **given: Any) -> Act:
        """A piece goes out."""
        request = GoOut(**self.asked(piece=piece, to=to, **given))
        return go_out(request, book=self.book, now=self.now)

    def come_in(self, piece: str, **given: Any) -> CameIn:
        """A piece comes in; nothing was used unless something is said."""
        return come_in(ComeIn(**self.asked(piece=piece, **given)), book=self.book, now=self.now)

    def send_back(self, piece: str, why: str = "crushed core", **given: Any) -> Act:
        """A piece goes back to its supplier."""
        facts: dict[str, Any] = {"claim": "RMA-7"}
        request = SendBack(**self.asked(piece=piece, why=why, **facts | given))
        return send_back(request, book=self.book, now=self.now)

    def credit(self, piece: str, minor: int = 0, **given: Any) -> Act:
        """The supplier settles a claim."""
        request = Credit(**self.asked(piece=piece, credit_minor=minor, **given))
        return credit(request, book=self.book, now=self.now)

    def seen(self, place: str, *pieces: str, **given: Any) -> Taken:
        """A place is looked through."""
        request = Seen(**self.asked(place=place, pieces=pieces, **given))
        return seen(request, book=self.book, now=self.now)

    def count_blind(self, piece: str, by: str = "Ida M.", **given: Any) -> BlindCounted:
        """Somebody counts without the books."""
        request = CountBlind(**self.asked(piece=piece, **given) | {"operator": by})
        return count_blind(request, book=self.book, now=self.now)

    def hold_lot(self, lot: str, why: str = "maker's notice", **given: Any) -> Act:
        """A lot is recalled."""
        request = HoldLot(**self.asked(lot=lot, why=why, **given))
        return hold_lot(request, book=self.book, now=self.now)

    def release_lot(self, lot: str, why: str = "tested, sound", **given: Any) -> Act:
        """A recall ends."""
        request = ReleaseLot(**self.asked(lot=lot, why=why, **given))
        return release_lot(request, book=self.book, now=self.now)

    def kit(self, *parts: tuple[str, int]) -> str:
        """A kit of these parts, by its code."""
        code = self.box(1)
        self.list_parts(code, *parts)
        return code

    def list_parts(self, code: str, *parts: tuple[str, int], **given: Any) -> Act:
        """The parts of a box are listed."""
        request = ListParts(**self.asked(piece=code, parts=parts, **given))
        return list_parts(request, book=self.book, now=self.now)

    def take_part(self, code: str, part: str, number: int = 1, **given: Any) -> Act:
        """A part leaves its kit."""
        request = TakePart(**self.asked(piece=code, part=part, number=number, **given))
        return take_part(request, book=self.book, now=self.now)

    def part_back(self, code: str, part: str, number: int = 1, **given: Any) -> Act:
        """A part is in its kit again."""
        request = PartBack(**self.asked(piece=code, part=part, number=number, **given))
        return part_back(request, book=self.book, now=self.now)

    def mix(self, **given: Any) -> Mixed:
        """A bottle is filled."""
        facts: dict[str, Any] = {
            "material": SOLUTION,
            "contents": "water, 1 % baby soap",
            "hazard": "keep from eyes",
            "keeps": "7d",
        }
        with expected(Code.ALREADY_THERE):
            self.material(SOLUTION, Kind.LIQUID)
        request = Mix(**self.asked(**facts | given))
        return mix(request, book=self.book, now=self.now)

    def set_value(self, name: str, value: str) -> None:
        """A setting of the house."""
        request = SetValue(**self.asked(name=name, value=value, why="ours"))
        set_value(request, book=self.book, now=self.now)

    def scrap(self, *pieces: str, **given: Any) -> Act:
        """Offcuts go in the bin."""
        request = Scrap(**self.asked(pieces=pieces, **given))
        return scrap(request, book=self.book, now=self.now)
