"""What a piece is made of: its own layers, or those of its material."""

import json
from collections.abc import Iterable
from dataclasses import asdict

from stockroom.books.chain import canonical
from stockroom.books.fold import State
from stockroom.books.values import Material
from stockroom.film.roll import Layer


def layers_of(state: State, material: Material) -> tuple[Layer, ...]:
    """The layers of a piece from its face down; none where they are not known."""
    if state.layers is None:
        return material.layers
    return tuple(Layer(**one) for one in json.loads(state.layers))


def layers_text(layers: Iterable[Layer]) -> str:
    """Layers as a piece keeps them."""
    return canonical([asdict(one) for one in layers])
