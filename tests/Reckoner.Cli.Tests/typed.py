#!/usr/bin/env python3
"""typed.py SHELL LINE: types LINE and the Tab key into a shell on a terminal, and prints what the line became."""

import os
import pty
import select
import sys
import time

START = {
    "bash": ["bash", "--norc", "--noprofile", "-i"],
    "zsh": ["zsh", "-f", "-i"],
    "fish": ["fish", "--no-config", "-i"],
}
SET_UP = {
    "bash": "source <(reckoner completions bash)",
    "zsh": "autoload -Uz compinit; compinit -u; source <(reckoner completions zsh)",
    "fish": "reckoner completions fish | source",
}


def read(terminal, until, patience=60):
    """What comes until a text is among it."""
    seen = b""
    end = time.monotonic() + patience
    while until not in seen:
        left = end - time.monotonic()
        if left < 0:
            sys.exit(f"{until!r} did not come: {seen!r}")
        if select.select([terminal], [], [], min(left, 1))[0]:
            seen += os.read(terminal, 65536)
    return seen


def settle(terminal, quiet):
    """Waits until nothing has come for so long."""
    while select.select([terminal], [], [], quiet)[0]:
        os.read(terminal, 65536)


def main():
    shell, line = sys.argv[1:]
    child, terminal = pty.fork()
    if child == 0:
        os.environ.update(TERM="dumb", PS1="", COLUMNS="200")
        os.execvp(START[shell][0], START[shell])
    settle(terminal, 1)
    # Marks of two halves: the line as it is typed does not hold what it prints.
    os.write(terminal, f"{SET_UP[shell]}; echo set''up\n".encode())
    read(terminal, b"setup")
    settle(terminal, 0.5)
    os.write(terminal, line.encode() + b"\t")
    # The answer takes as long as the command takes to start, on a machine that does much else.
    settle(terminal, 4)
    # The whole line becomes words that are shown.
    os.write(terminal, b"\x01echo fir''st: \x05; echo la''st\n")
    shown = read(terminal, b"last").split(b"first: ", 1)[1]
    print(shown.split(b"\r")[0].split(b"\n")[0].decode().rstrip())
    os.write(terminal, b"exit\n")


main()
