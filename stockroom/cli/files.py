"""Files that a command is given to read."""

from pathlib import Path

from stockroom.errors import Code, Refusal, clean_text


def content_of(path: Path) -> bytes:
    """What is in a file; one that cannot be read is refused (BAD_FILE)."""
    try:
        return path.read_bytes()
    except OSError as error:
        raise Refusal(
            Code.BAD_FILE, f"{clean_text(str(path), 80)} cannot be read: {error.strerror}."
        ) from error
