"""How much is measured, and how often."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """The sizes that are talked about; a test measures the same with smaller ones."""

    pieces: int = 50_000
    acts: int = 20
    """Of each piece."""
    growth: tuple[int, int] = (1_000, 100_000)
    """Pieces in the smallest and the largest rack."""
    scans: int = 2_000
    """Pieces looked up, and cuts appended."""
    racks: int = 5
    starts: int = 7
    zones: int = 20
    readings: int = 500_000
    """Of each zone."""
    labels: int = 1_000
    rows: int = 100_000
    """Of the list that is opened."""
