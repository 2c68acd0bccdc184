"""Measures everything in one run and prints one table; ends with 1 when an aim was missed."""

import sys

from scripts.speed.books import book_results
from scripts.speed.result import machine, table
from scripts.speed.surfaces import surface_results

results = [*book_results(), *surface_results()]
print(f"{machine()}; a book of 50,000 pieces and 1,000,000 moves\n")
print("\n".join(table(results)))
sys.exit(not all(result.is_met for result in results))
