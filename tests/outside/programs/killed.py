#!/usr/bin/env python3
"""Kills the program while it posts, and lets many post at once: nothing acknowledged is lost, nothing stands twice.

    killed.py PROGRAM POSTER [--kills N] [--writers N] [--events N] [--seed N]

PROGRAM is nonrunner, POSTER the loop of tests/bench/poster.cpp. Prints what was done and measured; ends with status 1 and
a line that says what is wrong where a promise is broken.
"""
import argparse
import collections
import json
import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import time

arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
arguments.add_argument("program")
arguments.add_argument("poster")
arguments.add_argument("--kills", type=int, default=300, help="times that the posting loop is killed, and the program")
arguments.add_argument("--writers", type=int, default=16)
arguments.add_argument("--events", type=int, default=1000, help="events of each writer")
arguments.add_argument("--seed", type=int, default=None)
given = arguments.parse_args()
seed = given.seed if given.seed is not None else random.randrange(1 << 30)
dice = random.Random(seed)
folder = tempfile.TemporaryDirectory(prefix="nonrunner-killed-")


def fail(what):
    print(f"killed.py: {what} (seed {seed})")
    sys.exit(1)


def run(book, *words):
    done = subprocess.run([given.program, *words, "--book", book], capture_output=True, text=True)
    if done.returncode != 0:
        fail(f"{' '.join(words)}: status {done.returncode}: {done.stderr.strip()}")
    return done.stdout


def new_book(name):
    book = os.path.join(folder.name, name)
    subprocess.run([given.program, "start", book], check=True, stdout=subprocess.DEVNULL)
    run(book, "owner", "in", "5000", "--purse", "cash")
    run(book, "buy", "pip", "900", "--purse", "cash")
    return book


def sound(book):
    health = json.loads(run(book, "check", "--json"))
    if not health["sound"]:
        fail(f"the book is not sound: {health['findings'][0]}")
    return health


def findings(book):
    """The texts of the findings in the book, by entry."""
    export = os.path.join(folder.name, f"export-{time.monotonic_ns()}")
    run(book, "export", export, "--events")
    # A long journal comes in several files, which the first one names.
    parts = [name for name in os.listdir(export) if name.endswith(".toml")]
    return [text for name in parts for text in re.findall(
        r'do = "finding",.* text = "([^"]*)"', open(os.path.join(export, name)).read())]


def kill_the_loop():
    book = new_book("loop.book")
    acknowledged = set()
    began = time.monotonic()
    for turn in range(given.kills):
        process = subprocess.Popen([given.poster, book, f"turn-{turn}", "0"], stdout=subprocess.PIPE, text=True)
        time.sleep(dice.uniform(0.0, 0.1))
        process.send_signal(signal.SIGKILL)
        for line in process.stdout:
            if line.endswith("\n"):
                acknowledged.add(f"turn-{turn} {line.split()[0]}")
        process.wait()
        if turn % 50 == 49:
            sound(book)
    sound(book)
    there = collections.Counter(findings(book))
    lost = acknowledged - set(there)
    twice = [text for text, count in there.items() if count > 1]
    if lost:
        fail(f"acknowledged and lost: {sorted(lost)[:3]} and so on, {len(lost)} in all")
    if twice:
        fail(f"recorded twice: {twice[:3]}")
    print(f"posting loop killed {given.kills} times: {len(acknowledged)} events acknowledged, {len(there)} there, none lost, "
          f"none twice, {time.monotonic() - began:.0f} s")


def kill_the_program():
    book = new_book("program.book")
    began = time.monotonic()
    run(book, "note", "pip", "first")
    once = time.monotonic()
    run(book, "note", "pip", "second")
    once = time.monotonic() - once
    acknowledged, killed = set(), 0
    for turn in range(given.kills):
        process = subprocess.Popen([given.program, "note", "pip", f"turn-{turn}", "--book", book], stdout=subprocess.PIPE, text=True)
        time.sleep(dice.uniform(0.0, 1.5 * once))
        process.send_signal(signal.SIGKILL)
        said, _ = process.communicate()
        if said.startswith("entry ") and said.endswith("\n"):
            acknowledged.add(f"turn-{turn}")
        if process.returncode == -signal.SIGKILL:
            killed += 1
    sound(book)
    there = collections.Counter(findings(book))
    lost = acknowledged - set(there)
    if lost:
        fail(f"acknowledged and lost: {sorted(lost)[:3]}")
    if any(count > 1 for count in there.values()):
        fail("recorded twice")
    print(f"program killed {killed} times in {given.kills} runs: {len(acknowledged)} acknowledged, none lost, none twice, "
          f"{time.monotonic() - began:.0f} s")


def many_at_once():
    book = new_book("many.book")
    run(book, "clock", "on", "pip", "pump")
    began = time.monotonic()
    writers = [subprocess.Popen([given.poster, book, f"writer-{number}", str(given.events)], stdout=subprocess.PIPE,
                                stderr=subprocess.PIPE, text=True) for number in range(given.writers)]
    # What they say fits into a pipe only for short runs: it is read as it comes.
    import threading
    said = {}
    readers = [threading.Thread(target=lambda number=number, writer=writer: said.__setitem__(number, writer.communicate()))
               for number, writer in enumerate(writers)]
    for reader in readers:
        reader.start()
    longest, looks, copies = 0.0, 0, 0
    while any(writer.poll() is None for writer in writers):
        look = time.monotonic()
        run(book, "vehicles")
        longest = max(longest, time.monotonic() - look)
        looks += 1
        if looks % 10 == 5 and copies < 5:
            copies += 1
            copy = os.path.join(folder.name, f"copy-{copies}.book")
            run(book, "backup", copy)
            sound(copy)
        time.sleep(0.1)
    took = time.monotonic() - began
    for reader in readers:
        reader.join()
    for number, writer in enumerate(writers):
        if writer.returncode != 0:
            fail(f"writer {number}: {said[number][1].strip()}")
    run(book, "clock", "off", "--hours", "1")
    health = sound(book)
    wanted = {f"writer-{w} {n}" for w in range(given.writers) for n in range(1, given.events + 1)}
    there = collections.Counter(findings(book))
    if set(there) != wanted or any(count > 1 for count in there.values()):
        fail(f"of {len(wanted)} events {len(wanted - set(there))} are lost, {sum(c > 1 for c in there.values())} stand twice")
    expected = 2 + len(wanted) + 1
    if health["entries"] != expected:
        fail(f"{health['entries']} entries, expected {expected}")
    if longest > 5:
        fail(f"a reader waited for {longest:.1f} s")
    print(f"{given.writers} processes posted {given.events} events each in {took:.0f} s: none lost, none twice, chain sound; meanwhile "
          f"{looks} readers, the slowest took {longest:.2f} s, {copies} backups, each sound, and a clock that ran through")


kill_the_loop()
kill_the_program()
many_at_once()
