"""Who lifts a roll: one person, or two from 15 kg or above 1.2 m (common practice, no source)."""

TWO_PEOPLE_FROM_KG = 15.0
TWO_PEOPLE_ABOVE_MM = 1_200.0


def takes_two(mass_kg: float | None, width_mm: float | None) -> bool:
    """Whether a roll is too heavy or too wide for one person; what is unknown says nothing."""
    is_heavy = mass_kg is not None and mass_kg >= TWO_PEOPLE_FROM_KG
    return is_heavy or (width_mm is not None and width_mm > TWO_PEOPLE_ABOVE_MM)
