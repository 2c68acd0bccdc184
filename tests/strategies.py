"""What people do at a bench, drawn at random: sizes as a tape reads them, purposes, amounts."""

from hypothesis import strategies as st

from stockroom.units import INCH, MM

WHOLE_MM = st.integers(1, 4_000).map(lambda mm: mm * MM)
SIXTY_FOURTHS = st.integers(1, 10_000).map(lambda part: part * INCH // 64)
LENGTHS_NM = WHOLE_MM | SIXTY_FOURTHS
"""A length somebody cuts, in whole millimetres or in 64ths of an inch, up to 4 m."""

PARTS = st.fractions(0, 1, max_denominator=1_000)
"""A part of a whole, both ends among them."""

PRICES = st.integers(0, 200_000) | st.integers(10**9, 10**12)
"""What a roll may cost, in minor units: nothing, little, or a fortune in small coins."""
