#!/usr/bin/env python3
"""How long a book takes, beside the sqlite3 shell on the same machine in the same run. Measures; judges nothing.

    load.py PROGRAM [--lines N] [--postings N,N,...] [--runs N] [--cars N] [--folder DIR]

1  `receipt --csv` of N lines (four a paper), against the sqlite3 shell loading the .dump of the book that results
2  books of growing size: the import, `show TAG`, `vehicles`, against the sqlite3 shell opening the same file for `select 1`

The two of a pair run by turns; a time is the median, and the quartiles beside it say how far the machine's noise goes. A
car has as many postings in a small book as in a large one: there are more cars.
"""
import argparse
import csv
import datetime
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
arguments.add_argument("program")
arguments.add_argument("--lines", type=int, default=100_000)
arguments.add_argument("--postings", default="10000,100000,1000000")
arguments.add_argument("--runs", type=int, default=3, help="runs of an import; quick commands run five times as often")
arguments.add_argument("--per-car", type=int, default=1000, help="postings of a car")
arguments.add_argument("--folder", help="keeps the books there")
given = arguments.parse_args()
program = os.path.realpath(given.program)
folder = given.folder or tempfile.mkdtemp(prefix="nonrunner-load-")
os.makedirs(folder, exist_ok=True)


def timed(words, stdin=None):
    """Seconds, and the most memory it held, in MB."""
    with open(stdin) if stdin else open(os.devnull) as source:
        began = time.perf_counter()
        child = subprocess.Popen(words, stdin=source, stdout=subprocess.DEVNULL)
        _, status, usage = os.wait4(child.pid, 0)
        took = time.perf_counter() - began
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 0:
        sys.exit(f"load.py: {' '.join(words)}: status {child.returncode}")
    return took, usage.ru_maxrss / 1024


def shown(times):
    if len(times) < 3:
        return f"{statistics.median(times):.3f} s"
    low, middle, high = statistics.quantiles(times, n=4)
    return f"{middle:.3f} s ({low:.3f} to {high:.3f})"


def write_papers(path, lines, cars):
    kinds = ["part", "part", "consumable", "sublet"]
    with open(path, "w", newline="") as out:
        rows = csv.writer(out)
        rows.writerow("date supplier number purse what qty unit kind source to core taxed tax".split())
        for line in range(lines):
            paper = line // 4
            day = f"{2016 + paper * 10 // max(lines // 4, 1):04}-{paper % 12 + 1:02}-{paper % 28 + 1:02}"
            kind = kinds[line % 4]
            rows.writerow([day, f"Supplier {paper % 40}", f"N{paper}", "cash", f"thing {line % 977}", 1 + line % 3, f"{line % 90 + 1}.{line % 100:02}",
                           kind, "new" if kind == "part" else "", f"car-{paper % cars}", "5.00" if line % 50 == 0 else "", "yes" if line % 4 == 0 else "no",
                           "0.37" if line % 4 == 0 else ""])


def new_book(name, cars):
    book = os.path.join(folder, name)
    for tail in ("", "-wal", "-shm"):
        if os.path.exists(book + tail):
            os.remove(book + tail)
    subprocess.run([program, "start", book], check=True, stdout=subprocess.DEVNULL)
    events = os.path.join(folder, "cars.toml")
    with open(events, "w") as out:
        out.write("event = [\n")
        for car in range(cars):
            out.write(f'  {{ do = "buy", date = 2016-01-01, vehicle = "car-{car}", price = {500 + car}.00, purse = "cash" }},\n')
            for turn in range(40):
                # Twelve a day, 18 hours: nobody works more than 24.
                day = datetime.date(2016, 2, 1) + datetime.timedelta(days=(car * 40 + turn) // 12)
                out.write(f'  {{ do = "hours", date = {day}, vehicle = "car-{car}", operation = "work {turn % 12}", own = 1.5 }},\n')
            if car % 2:
                out.write(f'  {{ do = "sell", date = 2026-01-30, vehicle = "car-{car}", price = {2000 + car}.00, purse = "cash" }},\n')
        out.write("]\n")
    return book, events


def imports():
    cars = 100
    papers = os.path.join(folder, "papers.csv")
    write_papers(papers, given.lines, cars)
    dump = os.path.join(folder, "dump.sql")
    ours, shell, memory = [], [], []
    for _ in range(given.runs):
        book, _ = new_book("import.book", cars)
        took, held = timed([program, "receipt", "--csv", papers, "--book", book])
        ours.append(took)
        memory.append(held)
        with open(dump, "w") as out:
            subprocess.run(["sqlite3", book, ".dump"], check=True, stdout=out)
        loaded = os.path.join(folder, "loaded.db")
        if os.path.exists(loaded):
            os.remove(loaded)
        shell.append(timed(["sqlite3", loaded], stdin=dump)[0])
    ratio = statistics.median(ours) / statistics.median(shell)
    print(f"receipt --csv, {given.lines} lines: {shown(ours)}, at most {max(memory):.0f} MB\n"
          f"the sqlite3 shell loading the .dump of that book: {shown(shell)}\n"
          f"ratio {ratio:.2f}")


def growth():
    print(f"\n{'postings':>9} {'cars':>6} {'import':>9} {'a line':>9} {'memory':>8} {'select 1':>9} {'show':>9} {'ratio':>6} {'vehicles':>9} {'ratio':>6}   quartiles of show and vehicles")
    for postings in [int(each) for each in given.postings.split(",")]:
        cars = max(postings // given.per_car, 1)
        lines = postings * 4 // 5
        papers = os.path.join(folder, "papers.csv")
        write_papers(papers, lines, cars)
        book, events = new_book(f"book-{postings}.book", cars)
        # The sales come last: the papers are entered between.
        text = open(events).read().splitlines(keepends=True)
        head = [each for each in text if 'do = "sell"' not in each]
        tail = [each for each in text if 'do = "sell"' in each]
        for name, body in (("first.toml", head), ("last.toml", ["event = [\n", *tail, "]\n"])):
            with open(os.path.join(folder, name), "w") as out:
                out.writelines(body)
        subprocess.run([program, "post", os.path.join(folder, "first.toml"), "--book", book], check=True, stdout=subprocess.DEVNULL)
        took, held = timed([program, "receipt", "--csv", papers, "--book", book])
        subprocess.run([program, "post", os.path.join(folder, "last.toml"), "--book", book], check=True, stdout=subprocess.DEVNULL)
        select, show, vehicles = [], [], []
        for _ in range(given.runs * 5):
            select.append(timed(["sqlite3", book, "select 1"])[0] * 1000)
            show.append(timed([program, "show", f"car-{cars // 2}", "--book", book])[0] * 1000)
            vehicles.append(timed([program, "vehicles", "--book", book])[0] * 1000)
        middle = [statistics.median(each) for each in (select, show, vehicles)]
        quartiles = ["{0[0]:.1f} to {0[2]:.1f}".format(statistics.quantiles(each, n=4)) for each in (show, vehicles)]
        print(f"{postings:>9} {cars:>6} {took:>7.2f} s {took / lines * 1e6:>6.1f} us {held:>5.0f} MB {middle[0]:>6.1f} ms {middle[1]:>6.1f} ms "
              f"{middle[1] / middle[0]:>6.2f} {middle[2]:>6.1f} ms {middle[2] / middle[0]:>6.2f}   {', '.join(quartiles)} ms", flush=True)


imports()
growth()
if not given.folder:
    shutil.rmtree(folder)
