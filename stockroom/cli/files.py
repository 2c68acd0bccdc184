"""Files that a command is given to read."""

from pathlib import Path

from stockroom.errors import Code, Refusal, clean_text

_LARGEST_BYTES = 2**28


def content_of(path: Path) -> bytes:
    """What is in a file or a pipe; what cannot be read, or is too large, is refused (BAD_FILE)."""
    shown = clean_text(str(path), 80)
    try:
        with path.open("rb") as file:
            raw = file.read(_LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        said = getattr(error, "strerror", None) or "no file can be called that"
        raise Refusal(Code.BAD_FILE, f"{shown} cannot be read: {said}.") from error
    if len(raw) > _LARGEST_BYTES:
        raise Refusal(
            Code.BAD_FILE, f"{shown} is larger than {_LARGEST_BYTES // 2**20} MB: divide it."
        )
    return raw
