"""A panel wider than the film: how many strips of one width, with an overlap, make it up.

    strips(width, usable, overlap)    (how many, how wide each is)

k = ceil((w - o) / (u - o)) strips of (w + (k - 1)·o) / k, rounded up.
"""

from stockroom.errors import Code, Refusal


def strips(width: int, usable: int, overlap: int) -> tuple[int, int]:
    """How many strips, and how wide each, in whole units; an overlap as wide as film is refused."""
    if overlap >= usable:
        raise Refusal(
            Code.TOO_NARROW, "The overlap of a seam is wider than the film: make it less."
        )
    number = max(1, -(-(width - overlap) // (usable - overlap)))
    return number, -(-(width + (number - 1) * overlap) // number)
