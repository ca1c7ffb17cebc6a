#!/usr/bin/env python3
"""The page's speed beside its limits, in one run on a quiet machine: medians, and their ratio.

    page.py PROGRAM SOURCE

An entry that a phone sends beside the bare durable commit of as many bytes (SQLite, WAL, synchronous FULL, by turns, in the same
folder); the first page; the room before the seller beside the same appraisal at the prompt, less what a process takes anyway.
"""
import os
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time

program, source = os.path.abspath(sys.argv[1]), sys.argv[2]
sys.path.insert(0, os.path.join(source, "tests", "outside", "page"))
from visitor import House  # noqa: E402

JOB = os.path.join(source, "sample-jobs", "sprat", "job.toml")


def spent(work):
    began = time.perf_counter()
    work()
    return (time.perf_counter() - began) * 1e3


def served(house, road):
    """Milliseconds in the house, as its log has them, of the last request of that road."""
    with open(house.book + ".log") as log:
        return float([line for line in log if f" {road} " in line][-1].split()[-1])


def entries(house, folder, rounds=150):
    bare = sqlite3.connect(os.path.join(folder, "bare.db"), isolation_level=None)
    bare.execute("PRAGMA journal_mode = WAL")
    bare.execute("PRAGMA synchronous = FULL")
    bare.execute("CREATE TABLE entry (id TEXT PRIMARY KEY, body TEXT NOT NULL)")
    put, commit, whole = [], [], []
    for at in range(rounds):
        identity = f"{at:032x}"
        body = f"do=receipt&vehicle=pip&amount={at * 7 + 3}.{at % 90 + 10}&what=thing {at}&purse=cash&day=2026-04-05".replace(" ", "+")

        def send(identity=identity, body=body):
            status, _, text = house.ask("PUT", f"/entry/{identity}", {"Accept": "application/json"}, body.encode())
            if status != 201:
                raise SystemExit(f"page.py: PUT: {status} {text!r}")

        whole.append(spent(send))
        put.append(served(house, "/entry/*"))
        commit.append(spent(lambda identity=identity, body=body: bare.execute("INSERT INTO entry VALUES (?, ?)", (identity, body))))
        time.sleep(0.04)  # below thirty a second
    return put, commit, whole


def main():
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_FOLDER")) as folder:
        house = House(program, os.path.join(folder, "shop"))
        try:
            house.pair()
            put, commit, whole = entries(house, folder)
            here, there = statistics.median(put), statistics.median(commit)
            print(f"entry by PUT {here:.2f} ms in the house ({statistics.median(whole):.2f} ms with its way), bare durable commit {there:.2f} ms: "
                  f"ratio {here / there:.2f} (limit 2)")
            pages = []
            for _ in range(50):
                house.ask("GET", "/")
                pages.append(served(house, "/"))
            print(f"first page {statistics.median(pages):.2f} ms in the house (limit 10)")
            house.run("appraise", JOB, "--keep", "--book", house.book)
            room, process, nothing = [], [], []
            for _ in range(25):
                status = house.status("GET", "/seller/sprat")
                if status != 200:
                    raise SystemExit(f"page.py: /seller/sprat: {status}")
                room.append(served(house, "/seller/*"))
                process.append(spent(lambda: subprocess.run([program, "appraise", JOB], capture_output=True, check=True)))
                nothing.append(spent(lambda: subprocess.run([program, "--help"], capture_output=True, check=True)))
            alone = statistics.median(process) - statistics.median(nothing)
            here = statistics.median(room)
            print(f"before the seller {here:.1f} ms in the house, the same appraisal at the prompt {alone:.1f} ms: ratio {here / alone:.2f}, "
                  f"{here - 1.3 * alone:.1f} ms over 1.3 of it (limit 2)")
        finally:
            house.end()


main()
