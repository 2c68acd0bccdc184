"""Measures everything in one run and prints one table; ends with 1 when an aim was missed."""

import sys

from scripts.speed.books import book_results
from scripts.speed.climate import climate_results
from scripts.speed.laying import laying_results
from scripts.speed.ordering import ordering_results
from scripts.speed.result import machine, table
from scripts.speed.scale import Scale
from scripts.speed.surfaces import surface_results

scale = Scale()
results = [
    *book_results(scale),
    *climate_results(scale),
    *surface_results(scale),
    *laying_results(),
    *ordering_results(),
]
moves = scale.pieces * scale.acts
readings = scale.zones * scale.readings
print(f"{machine()}; {scale.pieces:,} pieces, {moves:,} moves, {readings:,} readings\n")
print("\n".join(table(results)))
sys.exit(not all(result.is_met for result in results))
