"""Why film or goods are taken without a job."""

from stockroom.errors import Code, Refusal

REASONS = ("spoiled", "sample", "training", "leader")


def refuse_reason(reason: str | None) -> None:
    """Refuse a reason nobody knows; none is fine."""
    if reason is not None and reason not in REASONS:
        raise Refusal(Code.BAD_USAGE, f"“{reason}” is no reason: use {', '.join(REASONS)}.")
