"""The densities a reader meets, in the demo shop and the README, against published ranges."""

import csv
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from stockroom.film.roll import Layer, parse_layer
from stockroom.units import System
from tests.architecture.tree import ROOT

_WRITTEN = re.compile(r"\b[0-9.]+um:[0-9]+\b")


def _ranges() -> list[dict[str, str]]:
    with (Path(__file__).parent / "densities.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _layers() -> Iterator[str]:
    """Every layer that is written down, with the place where it is."""
    shop = tomllib.loads((ROOT / "demo/shop/materials.toml").read_text(encoding="utf-8"))
    for material in shop["material"]:
        yield from material.get("layers", ())
    yield from _WRITTEN.findall((ROOT / "README.md").read_text(encoding="utf-8"))


@pytest.mark.parametrize("layer", sorted(set(_layers())))
def test_every_layer_is_of_a_substance_of_that_density(layer: str) -> None:
    """The source stands in the row of its range."""
    read: Layer = parse_layer(layer, System.METRIC)

    found = [
        row
        for row in _ranges()
        if float(row["low_kg_m3"]) <= read.density_kg_m3 <= float(row["high_kg_m3"])
    ]

    assert found
    assert all(row["source"] for row in found)
