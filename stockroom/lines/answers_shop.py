"""What the whole shop shares, as the dictionary a script reads."""

from typing import Any

from stockroom.books.values import Shop
from stockroom.film.limits import HOUSE_NAMES


def shop_values(shop: Shop) -> dict[str, Any]:
    """What the whole shop shares, and every house limit with what it rests on."""
    house = shop.house
    return {
        "name": shop.name,
        "units": shop.system.value,
        "currency": shop.currency,
        "time_zone": shop.zone,
        "day_start_hour": shop.day_start_hour,
        "labour_minor_per_hour": shop.labour_minor,
        "limits": [
            {
                "name": name,
                "value": house.shown(name),
                "basis": None if house.shown(name) is None else house.basis(name).value,
            }
            for name in HOUSE_NAMES
        ],
    }
