#!/usr/bin/env python3
"""A full disk, a book that may not be written to or read, a hand that interrupts: status 3 (or the signal), one line, nothing
lost, nothing left half done.

    hostile.py PROGRAM FOLDER

Says which way it played each of them; ends with status 1 and a line that says what is wrong where a promise is broken.
"""
import json
import os
import pty
import resource
import shutil
import signal
import subprocess
import sys
import time

program, folder = sys.argv[1], sys.argv[2]
shutil.rmtree(folder, ignore_errors=True)
os.makedirs(folder)


# Where this was begun in the background SIGINT is ignored, and a program that is begun so leaves it ignored.
signal.signal(signal.SIGINT, signal.default_int_handler)


def fail(what):
    print(f"hostile.py: {what}")
    sys.exit(1)


def run(*words, program=program, **more):
    return subprocess.run([program, *words], capture_output=True, text=True, **more)


def good(*words, **more):
    done = run(*words, **more)
    if done.returncode != 0:
        fail(f"{' '.join(words)}: status {done.returncode}: {done.stderr.strip()}")
    return done.stdout


def new_book(path, **more):
    good("start", path, **more)
    good("owner", "in", "5000", "--purse", "cash", "--book", path, **more)
    good("buy", "pip", "900", "--purse", "cash", "--book", path, **more)
    return path


def machine_failed(done, what):
    """Status 3 and one line; nothing of Python's or a library's own."""
    if done.returncode != 3 or done.stderr.count("\n") != 1 or not done.stderr.startswith("nonrunner: "):
        fail(f"{what}: status {done.returncode}, said {done.stderr!r}, expected status 3 and one line")
    return done.stderr.strip()


def entries(book, **more):
    health = json.loads(good("check", "--json", "--book", book, **more))
    if not health["sound"]:
        fail(f"{book} is not sound: {health['findings'][0]}")
    return health["entries"]


def fill(book, most, what, preexec=None):
    """Posts until the room ends: what was acknowledged is there, and the book goes on when there is room again."""
    acknowledged, said = entries(book), ""
    text = "x" * 60_000
    for _ in range(most):
        done = run("note", "pip", text, "--book", book, preexec_fn=preexec)
        if done.returncode != 0:
            said = machine_failed(done, what)
            break
        acknowledged += 1
    else:
        fail(f"{what}: never full")
    if entries(book) != acknowledged:
        fail(f"{what}: {entries(book)} entries, {acknowledged} acknowledged")
    return acknowledged, said


def full_disk():
    small = os.path.join(folder, "small")
    os.makedirs(small, exist_ok=True)
    mounted = os.geteuid() == 0 and subprocess.run(["mount", "-t", "tmpfs", "-o", "size=2m", "none", small], capture_output=True).returncode == 0
    try:
        if mounted:
            book = new_book(os.path.join(small, "shop.book"))
            acknowledged, said = fill(book, 200, "disk full")
            for words in (["backup", os.path.join(small, "copy.book")], ["export", os.path.join(small, "export")]):
                before = sorted(os.listdir(small))
                machine_failed(run(*words, "--book", book), f"disk full, {words[0]}")
                if sorted(os.listdir(small)) != before:
                    fail(f"disk full, {words[0]}: left behind {set(os.listdir(small)) - set(before)}")
            subprocess.run(["mount", "-o", "remount,size=8m", small], check=True)
            good("note", "pip", "room again", "--book", book)
            if entries(book) != acknowledged + 1:
                fail("disk full: with room again, an entry is missing")
            print(f"full disk (a file system of 2 MB): {acknowledged} entries acknowledged and there, then: {said}")
        else:
            print("full disk: no file system may be mounted here; only the limit on the size of a file was tried")
    finally:
        if mounted:
            subprocess.run(["umount", small], check=True)
    book = new_book(os.path.join(folder, "limited.book"))
    size = os.path.getsize(book) + 1_000_000
    limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
    acknowledged, said = fill(book, 200, "file limit", limit)
    good("note", "pip", "room again", "--book", book)
    if entries(book) != acknowledged + 1:
        fail("file limit: with room again, an entry is missing")
    print(f"a limit on the size of a file: {acknowledged} entries acknowledged and there, then: {said}")


def no_permission():
    """Root is let through everywhere, so the program is run as nobody where we are root."""
    nobody = 65534
    open_folder = os.path.join("/tmp", f"nonrunner-hostile-{os.getpid()}")
    os.makedirs(open_folder, mode=0o755)
    copy = os.path.join(open_folder, "nonrunner")
    shutil.copy(program, copy)
    os.chmod(copy, 0o755)
    book = new_book(os.path.join(open_folder, "shop.book"))
    as_other = {"program": copy}
    if os.geteuid() == 0:
        if shutil.which("setpriv") is None:
            fail("setpriv is not there, expected it to run the program as nobody")
        wrapper = os.path.join(open_folder, "as-nobody")
        with open(wrapper, "w") as script:
            script.write(f'#!/bin/sh\nexec setpriv --reuid={nobody} --regid={nobody} --clear-groups {copy} "$@"\n')
        os.chmod(wrapper, 0o755)
        as_other = {"program": wrapper}

    def give(path, mode, owner=nobody):
        if os.geteuid() == 0:
            os.chown(path, owner, owner)
        os.chmod(path, mode)

    try:
        said = []
        before = open(book, "rb").read()
        give(open_folder, 0o755)
        for mode, words, what in [(0o444, ("note", "pip", "x"), "read-only file, writing"), (0o000, ("show", "pip"), "unreadable file, reading"),
                                  (0o000, ("note", "pip", "x"), "unreadable file, writing")]:
            give(book, mode)
            said.append((what, machine_failed(run(*words, "--book", book, **as_other), what)))
        give(book, 0o600)
        give(open_folder, 0o555)
        for words, what in [(("note", "pip", "x"), "read-only folder, writing"), (("start", os.path.join(open_folder, "new.book")), "read-only folder, start"),
                            (("backup", os.path.join(open_folder, "copy.book")), "read-only folder, backup"),
                            (("export", os.path.join(open_folder, "out")), "read-only folder, export"),
                            (("workbook", "profit", "pip", os.path.join(open_folder, "out.xlsx")), "read-only folder, workbook")]:
            extra = () if words[0] == "start" else ("--book", book)
            said.append((what, machine_failed(run(*words, *extra, **as_other), what)))
        give(open_folder, 0o755)
        give(book, 0o444)
        shown = run("show", "pip", "--book", book, **as_other)
        if shown.returncode != 0 or "pip owned" not in shown.stdout:
            fail(f"read-only file, reading: status {shown.returncode}: {shown.stderr.strip()}, expected the figures")
        give(book, 0o600)
        if entries(book, **as_other) != 2:
            fail("an entry came or went without permission")
        if open(book, "rb").read() != before:
            fail("the book was changed without permission")
        for what, line in said:
            print(f"{what}: {line.replace(open_folder, '...')}")
    finally:
        os.chmod(open_folder, 0o755)
        shutil.rmtree(open_folder)


def private():
    """What the program makes is its owner's alone, whatever the umask."""
    book = os.path.join(folder, "private.book")
    photo = os.path.join(folder, "photo.jpg")
    open(photo, "w").write("no real picture")
    loose = lambda: os.umask(0)
    good("start", book, preexec_fn=loose)
    good("buy", "pip", "900", "--book", book, preexec_fn=loose)
    good("attach", "pip", photo, "--book", book, preexec_fn=loose)
    good("backup", os.path.join(folder, "private-copy.book"), "--book", book, preexec_fn=loose)
    good("export", os.path.join(folder, "private-export"), "--book", book, preexec_fn=loose)
    good("restore", os.path.join(folder, "private-copy.book"), "--book", os.path.join(folder, "private-again.book"), preexec_fn=loose)
    looked = 0
    for name in ("private.book", "private.book.files", "private-copy.book", "private-copy.book.files", "private-again.book",
                 "private-again.book.files", "private-export"):
        path = os.path.join(folder, name)
        wanted = 0o700 if os.path.isdir(path) else 0o600
        if os.stat(path).st_mode & 0o777 != wanted:
            fail(f"{name}: mode {os.stat(path).st_mode & 0o777:o}, expected {wanted:o}")
        looked += 1
        for inside in os.listdir(path) if name.endswith(".files") else []:
            if os.stat(os.path.join(path, inside)).st_mode & 0o777 != 0o600:
                fail(f"{name}/{inside}: not the owner's alone")
            looked += 1
    print(f"{looked} files and folders are readable by their owner only")


def many_events(path, count):
    with open(path, "w") as out:
        out.write("event = [\n  { do = \"buy\", date = 2026-01-01, vehicle = \"pip\", price = 900.00, purse = \"cash\" },\n")
        for number in range(count):
            out.write(f'  {{ do = "finding", date = 2026-01-02, vehicle = "pip", text = "number {number}" }},\n')
        out.write("]\n")


def interrupted():
    events = os.path.join(folder, "many.toml")
    many_events(events, 15_000)
    big = os.path.join(folder, "big.book")
    good("start", big)
    good("post", events, "--book", big)
    kept = entries(big)
    good("export", os.path.join(folder, "big-export"), "--book", big)
    work = os.path.join(folder, "interrupted")
    told, tries = 0, 0
    for number, words in {
            signal.SIGINT: [("post", events), ("backup", "copy.book"), ("export", "out"), ("restore", "../big-export", "--book", "again.book"),
                            ("restore", "../big.book", "--book", "again.book")],
            signal.SIGTERM: [("post", events), ("restore", "../big-export", "--book", "again.book")]}.items():
        for each in words:
            whole, hit, shares = None, 0, (0.05, 0.2, 0.4, 0.6, 0.8)
            # Left alone once, to know how long it takes; then interrupted five times, and more often until two of these hit it
            # under way: how quick a machine is changes from one run to the next.
            for attempt in range(-1, 80):
                if attempt >= len(shares) and hit >= 2:
                    break
                shutil.rmtree(work, ignore_errors=True)
                os.makedirs(work)
                book = os.path.join(work, "shop.book") if each[0] == "post" else big
                if each[0] == "post":
                    good("start", book)
                extra = () if "--book" in each else ("--book", book)
                before = sorted(os.listdir(work))
                process = subprocess.Popen([program, *each, *extra], cwd=work, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
                if whole is None:
                    began = time.monotonic()
                    process.communicate()
                    whole = time.monotonic() - began
                    if process.returncode != 0:
                        fail(f"{each[0]} left alone: status {process.returncode}")
                    continue
                time.sleep(whole * (shares[attempt] if attempt < len(shares) else attempt % 19 / 20))
                process.send_signal(number)
                out, err = process.communicate()
                tries += 1
                if process.returncode == 0:
                    continue  # it was done before
                if process.returncode != -number:
                    fail(f"{each[0]} interrupted: status {process.returncode}, expected to end by the signal")
                if err:
                    told += 1
                    hit += 1
                    if err != "nonrunner: interrupted; nothing of it was kept\n":
                        fail(f"{each[0]} interrupted: said {err!r}")
                    left = set(os.listdir(work)) - set(before)
                    if left:
                        fail(f"{each[0]} interrupted: left behind {left}")
                for name in ("copy.book", "again.book", "out"):
                    if os.path.exists(os.path.join(work, name)):
                        fail(f"{each[0]} interrupted: {name} is there")
                if each[0] == "post" and entries(book) != 0:
                    fail(f"post interrupted: {entries(book)} entries are there")
            if hit < 2:
                fail(f"{each[0]}: only {hit} of 80 interruptions hit it under way")
    if entries(big) != kept:
        fail("the book changed while it was copied")
    shutil.rmtree(work)
    print(f"interrupted {tries} times, {told} of them in the middle of the work: nothing half done, nothing left behind")


def progress():
    """Seen on a terminal, after a second; never elsewhere."""
    events = os.path.join(folder, "more.toml")
    book = os.path.join(folder, "progress.book")
    for count in (60_000, 240_000, 960_000):  # as many as take this machine some seconds
        for each in ("", "-wal", "-shm"):
            if os.path.exists(book + each):
                os.remove(book + each)
        many_events(events, count)
        good("start", book)
        began = time.monotonic()
        quiet = run("post", events, "--book", book)
        if quiet.stderr:
            fail(f"progress on what is no terminal: {quiet.stderr[:80]!r}")
        if time.monotonic() - began > 4:
            break
    good("start", book + "2")
    parent, child = pty.openpty()
    process = subprocess.Popen([program, "post", events, "--book", book + "2"], stdout=subprocess.DEVNULL, stderr=child)
    os.close(child)
    seen = b""
    while True:
        try:
            part = os.read(parent, 4096)
        except OSError:
            break
        if not part:
            break
        seen += part
    process.wait()
    if b"posting: " not in seen or b" %" not in seen:
        fail(f"no progress on a terminal: {seen[:80]!r}")
    if not seen.endswith(b"\r"):
        fail("the progress line was not cleared away")
    short = run("show", "pip", "--book", book)
    if short.stderr:
        fail("something on standard error of a short command")
    lines = seen.count(b"posting: ")
    print(f"progress on a terminal ({lines} times, cleared at the end), none elsewhere")


full_disk()
no_permission()
private()
interrupted()
progress()
