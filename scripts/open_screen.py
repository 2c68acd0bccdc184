"""Run a program in an 80x24 terminal nobody sits at, and leave it once it waits for a scan.

    python open_screen.py PROGRAM [ARGS...]

Ends with 0 when the scan line was drawn and ctrl+q ended the program with 0; otherwise it prints
what was drawn. Needs only the standard library, for it runs where nothing else is installed.
"""

import os
import pty
import re
import signal
import sys
import termios

WAITING = "scan, or / to type"
CTRL_Q = b"\x11"
PATIENCE_S = 60
ESCAPES = re.compile(r"\x1b(\[[0-9:;<=>?]*[ -/]*[@-~]|[^\[])")


def main(command: list[str]) -> int:
    """Open, wait, leave; the exit code says whether all of it went well."""
    child, terminal = pty.fork()
    if child == 0:
        termios.tcsetwinsize(0, (24, 80))
        signal.alarm(PATIENCE_S)  # outlives exec, so that a program that hangs ends too
        os.execvp(command[0], command)
    drawn = read_until(terminal, WAITING)
    if WAITING in drawn:
        os.write(terminal, CTRL_Q)
        drawn += read_until(terminal, None)
    _, status = os.waitpid(child, 0)
    if WAITING in drawn and status == 0:
        print(f"{command[0]}: drew a screen, ended with 0")
        return 0
    print(drawn, f"{command[0]}: no '{WAITING}', or a bad end (wait status {status})", sep="\n")
    return 1


def read_until(terminal: int, wanted: str | None) -> str:
    """What is drawn until the wanted words or the end of the program, without the escapes."""
    drawn, words = b"", ""
    while wanted is None or wanted not in words:
        try:
            drawn += os.read(terminal, 65536)
        except OSError:  # the program has ended: Linux says EIO where others say end of file
            break
        words = ESCAPES.sub("", drawn.decode(errors="replace"))
    return words


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
