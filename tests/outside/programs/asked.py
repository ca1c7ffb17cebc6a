#!/usr/bin/env python3
"""A paper asked for line by line, by the program itself through a pseudo-terminal: as somebody types it, with Ctrl-C and with
the terminal gone in the middle of it.

    asked.py PROGRAM FOLDER

Ends with status 1 and a line for each thing that is not so.
"""
import os
import pty
import select
import signal
import stat
import subprocess
import sys
import time

program, folder = sys.argv[1], sys.argv[2]
os.makedirs(folder, exist_ok=True)
book = os.path.join(folder, "shop.book")
world = {"NONRUNNER_BOOK": book, "XDG_STATE_HOME": os.path.join(folder, "state"), "HOME": folder, "LOGNAME": "ann", "TZ": "UTC",
         "PATH": os.environ["PATH"], "TERM": "dumb"}
draft = book + ".draft-ann"
bad = []


def expect(what, holds):
    if not holds:
        bad.append(what)


def run(*words):
    return subprocess.run([program, *words], env=world, capture_output=True, text=True)


class Typing:
    """The program on a terminal of its own: type() waits for the words that ask, then types."""

    def __init__(self, *words):
        self.said = ""
        self.pid, self.terminal = pty.fork()
        if self.pid == 0:
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # a script in the background ignores it, and its children do
            os.execve(program, [program, *words], world)

    def read(self, seconds):
        ready, _, _ = select.select([self.terminal], [], [], seconds)
        if not ready:
            return False
        try:
            got = os.read(self.terminal, 4096)
        except OSError:
            return False
        self.said += got.decode("utf-8", "replace")
        return bool(got)

    def wait_for(self, words):
        until = time.monotonic() + 20
        while words not in self.said[getattr(self, "seen", 0):]:
            if time.monotonic() > until or (not self.read(1) and not self.alive()):
                bad.append(f"was not asked {words!r}; said: {self.said[-300:]!r}")
                self.stop(signal.SIGKILL)
                raise SystemExit(report())
        self.seen = self.said.index(words, getattr(self, "seen", 0)) + len(words)

    def type(self, asked, answer):
        self.wait_for(asked)
        os.write(self.terminal, (answer + "\n").encode())

    def alive(self):
        return os.waitpid(self.pid, os.WNOHANG) == (0, 0)

    def ended(self):
        until = time.monotonic() + 20
        while self.read(1) or time.monotonic() < until:
            done, status = os.waitpid(self.pid, os.WNOHANG)
            if done:
                return status
        bad.append(f"did not end; said: {self.said[-300:]!r}")
        self.stop(signal.SIGKILL)
        raise SystemExit(report())

    def stop(self, by):
        os.kill(self.pid, by)


def report():
    for line in bad:
        print(f"not so: {line}")
    print("a paper typed at a terminal: interrupted, gone on with, kept" if not bad else f"{len(bad)} things are not so")
    return 1 if bad else 0


run("start", book)
run("owner", "in", "2500", "--purse", "cash")
run("buy", "pip", "900")

# Ctrl-C in the middle: the draft stays, nothing is in the book.
typing = Typing("receipt")
typing.type("supplier?", "Cleave Yard")
typing.type("number of the paper?", "3071")
typing.type("day?", "today")
typing.wait_for("line 1: what?")
os.write(typing.terminal, b"\x03")
status = typing.ended()
expect("Ctrl-C ends the program by that signal", os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGINT)
expect("the draft is there", os.path.exists(draft))
expect("the draft is the owner's alone", stat.S_IMODE(os.stat(draft).st_mode) == 0o600)
expect("nothing was booked", '"entry": 3' not in run("entries", "--json").stdout)

# The terminal goes away (a lid closed, a link lost): as much is kept as was answered.
typing = Typing("receipt")
typing.type("was begun: go on with it?", "y")
typing.type("line 1: what?", "lamp")
typing.type("for which car?", "")
typing.wait_for("part, consumable, sublet or fee?")
os.close(typing.terminal)
os.waitpid(typing.pid, 0)
expect("what was answered before the terminal went is kept", "line 1 for\tpip\n" in open(draft).read())

# And to the end, a step back on the way.
typing = Typing("receipt")
typing.type("was begun: go on with it?", "")
typing.type("part, consumable, sublet or fee?", "part")
typing.type("new, salvage or reman?", "sal")
typing.type("pieces?", "3")
typing.type("amount for all of them?", "<")
typing.type("pieces?", "2")
typing.type("amount for all of them?", "@6.50")
typing.type("core deposit on one?", "")
typing.type("another line?", "n")
typing.type("tax?", "")
typing.type("shipping?", "")
typing.type("discount?", "")
typing.type("total, as printed?", "")
typing.type("paid from which purse?", "")
typing.type("keep it?", "y")
status = typing.ended()
expect("the paper is kept with status 0", os.WIFEXITED(status) and os.WEXITSTATUS(status) == 0)
expect("its entry is said", "entry 3: 13.00 from cash for pip, lamp" in typing.said.replace("\r", ""))
expect("the draft is gone", not os.path.exists(draft))
expect("the car bears it", "913.00" in run("show", "pip", "--json").stdout)
expect("the book is sound", run("check").returncode == 0)
sys.exit(report())
