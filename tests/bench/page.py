#!/usr/bin/env python3
"""The page's speed beside its limits, in one run on a quiet machine: medians, and their ratio.

    page.py PROGRAM SOURCE

An entry that a phone sends beside two bare durable commits (SQLite, WAL, synchronous FULL, by turns, in the same folder): of the rows
that such an entry is, into a copy of the same book with all its promises, and of one row of as many bytes; the first page, alone,
beside 1,000 idle visitors and beside 20 that send a byte a second; the room before the seller beside the same appraisal at the
prompt, less what a process takes anyway.
"""
import contextlib
import datetime
import os
import resource
import shutil
import socket
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import threading
import time

resource.setrlimit(resource.RLIMIT_NOFILE, (4096, resource.getrlimit(resource.RLIMIT_NOFILE)[1]))
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


class SameRows:
    """The rows of the last entry of a copy of the book, written again and again by nothing but SQLite."""

    def __init__(self, book, copy):
        source = sqlite3.connect(book)
        source.execute("VACUUM INTO ?", (copy,))
        source.close()
        self.book = sqlite3.connect(copy, isolation_level=None)
        for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
            self.book.execute("PRAGMA " + pragma).fetchall()
        self.last, = self.book.execute("SELECT max(entry) FROM entry").fetchone()
        tables = [name for name, in self.book.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'")]
        self.rows = []
        for table in sorted(tables, key=lambda name: (name == "entry", name != "line")):
            columns = [row[1] for row in self.book.execute(f"PRAGMA table_info({table})")]
            key = {"typed": "first"}.get(table, "entry")
            if key not in columns or table in ("sealed_from", "live_entry", "account_day", "desk_note", "appraisal"):
                continue
            found = self.book.execute(f"SELECT * FROM {table} WHERE {key} = ?", (self.last,)).fetchall()
            self.rows += [(table, columns, row) for row in found]
        self.lines = max(row[columns.index("line")] for table, columns, row in self.rows if table == "line")
        self.hash, = self.book.execute("SELECT hash FROM entry WHERE entry = ?", (self.last,)).fetchone()
        self.at = 0

    def again(self):
        self.at += 1
        entry, line = self.last + self.at, self.lines + self.at
        said = []
        for table, columns, row in self.rows:
            other = {"entry": entry, "first": entry, "last": entry, "line": line, "id": f"{entry}.1", "typed": None, "kept": f"{entry:032x}",
                     "previous": self.hash, "hash": entry.to_bytes(32, "big")}
            values = [other[name] if name in other and was is not None else was for name, was in zip(columns, row)]
            said.append((f"INSERT INTO {table} VALUES ({', '.join('?' * len(values))})", values))
        self.hash = entry.to_bytes(32, "big")

        def commit():
            self.book.execute("BEGIN IMMEDIATE")
            for sql, values in said:
                self.book.execute(sql, values)
            self.book.execute("COMMIT")

        return commit


def entries(house, folder, rounds=150):
    bare = sqlite3.connect(os.path.join(folder, "bare.db"), isolation_level=None)
    bare.execute("PRAGMA journal_mode = WAL")
    bare.execute("PRAGMA synchronous = FULL")
    bare.execute("CREATE TABLE entry (id TEXT PRIMARY KEY, body TEXT NOT NULL)")
    put, commit, whole, rows, same = [], [], [], [], None
    for at in range(rounds):
        identity = f"{at:032x}"
        day = datetime.date(2026, 4, 5) + datetime.timedelta(days=at // 5)  # five papers a day
        body = f"do=receipt&vehicle=pip&amount={at * 7 + 3}.{at % 90 + 10}&what=thing {at}&purse=cash&day={day}".replace(" ", "+")

        def send(identity=identity, body=body):
            status, _, text = house.ask("PUT", f"/entry/{identity}", {"Accept": "application/json"}, body.encode())
            if status != 201:
                raise SystemExit(f"page.py: PUT: {status} {text!r}")

        whole.append(spent(send))
        put.append(served(house, "/entry/*"))
        commit.append(spent(lambda identity=identity, body=body: bare.execute("INSERT INTO entry VALUES (?, ?)", (identity, body))))
        if at == 5:
            same = SameRows(house.book, os.path.join(folder, "rows.book"))
        if same:
            rows.append(spent(same.again()))
        time.sleep(0.04)  # below thirty a second
    return put, commit, whole, rows


def pages(house, count=200):
    for _ in range(count):
        house.ask("GET", "/")
        yield served(house, "/")


def whole_page(house):
    with socket.create_connection((house.address, house.port), 5, source_address=("127.0.0.99", 0)) as wire:
        wire.settimeout(10)
        wire.sendall(house.get("/pair"))
        with wire.makefile("rb") as reader:
            if not reader.read().startswith(b"HTTP/1.1 200"):
                raise SystemExit("page.py: a page was refused")


def its_way(house, count=60):
    """Milliseconds of a page from asking to its last byte, by an address of its own."""
    return [spent(lambda: whole_page(house)) for _ in range(count)]


@contextlib.contextmanager
def idle_visitors(house):
    idle = [socket.create_connection((house.address, house.port), 5, source_address=(f"127.0.0.{2 + i // 50}", 0)) for i in range(1000)]
    time.sleep(0.3)
    for wire in idle[-760:]:  # 256 are let in: a page needs a place among them
        wire.close()
    time.sleep(0.3)
    yield
    for wire in idle:
        wire.close()
    time.sleep(0.3)


@contextlib.contextmanager
def slow_senders(house):
    slow = [socket.create_connection((house.address, house.port), 5, source_address=("127.0.0.60", 0)) for _ in range(20)]
    ended = threading.Event()

    def send():
        for byte in b"GET /pair HTTP/1.1":
            for wire in slow:
                with contextlib.suppress(OSError):
                    wire.send(bytes([byte]))
            if ended.wait(1):
                return

    sending = threading.Thread(target=send)
    sending.start()
    yield
    ended.set()
    sending.join()
    for wire in slow:
        wire.close()
    time.sleep(0.3)


def crowds(house, rounds=14):
    """A tenth of a millisecond is less than what one machine differs by from one second to the next: by turns, the middle of all."""
    alone, idle, slow = [], [], []
    its_way(house)
    for _ in range(rounds):
        alone += its_way(house)
        with idle_visitors(house):
            idle += its_way(house)
        alone += its_way(house)
        with slow_senders(house):
            slow += its_way(house)
    return statistics.median(alone), statistics.median(idle), statistics.median(slow)


def main():
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_FOLDER")) as folder:
        house = House(program, os.path.join(folder, "shop"))
        try:
            house.pair()
            put, commit, whole, rows = entries(house, folder)
            here, there, one = statistics.median(put), statistics.median(rows), statistics.median(commit)
            print(f"entry by PUT {here:.2f} ms in the house ({statistics.median(whole):.2f} ms with its way), bare durable commit of the same rows "
                  f"{there:.2f} ms: ratio {here / there:.2f} (limit 2); of one row {one:.2f} ms: ratio {here / one:.2f}")
            print(f"first page {statistics.median(pages(house)):.2f} ms in the house (limit 10)")
            alone, idle, slow = crowds(house)
            print(f"a page with its way {alone:.2f} ms alone, {idle:.2f} beside 1,000 idle visitors, {slow:.2f} beside 20 slow senders: "
                  f"ratios {idle / alone:.2f}, {slow / alone:.2f} (limit 1.2)")
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
