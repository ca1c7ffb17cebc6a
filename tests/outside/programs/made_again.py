#!/usr/bin/env python3
"""A book of many entries, exported and made again: every figure that the program shows is the same.

    made_again.py PROGRAM [--entries N] [--seed N]

The figures are compared as the program's own JSON, and the workbook of each year cell by cell. Prints what was done; ends with
status 1 and a line that says what is apart.
"""
import argparse
import os
import random
import subprocess
import sys
import tempfile
import time

import openpyxl

arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
arguments.add_argument("program")
arguments.add_argument("--entries", type=int, default=100_000)
arguments.add_argument("--seed", type=int, default=20260301)
given = arguments.parse_args()
program = os.path.realpath(given.program)
dice = random.Random(given.seed)
scratch = tempfile.TemporaryDirectory(prefix="nonrunner-made-again-")


def place(name):
    return os.path.join(scratch.name, name)


def run(*words):
    done = subprocess.run([program, *words], capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"made_again.py: nonrunner {' '.join(words)}: status {done.returncode}: {done.stderr}")
    return done.stdout


def money(cents):
    return f"{cents // 100}.{cents % 100:02}"


def write_events(path, count):
    """`count` entries in the order of their days over two years: papers with shared lines, taxes, cores; hours, trips, stock, parts
    sold off, sales, voids."""
    cars, day, number = [], 0, 0
    lines_back = []
    with open(path, "w") as out:
        out.write("hour = 20\nevent = [\n")

        def write(text):
            nonlocal number
            number += 1
            month, date = day // 28 % 12 + 1, day % 28 + 1
            out.write("  { do = " + text.replace("@", f"date = {2024 + day // 336}-{month:02}-{date:02}") + " },\n")

        while number < count:
            day = min(number * 672 // count, 671)
            what = dice.random()
            if what < 0.005 or not cars:
                cars.append(f"car-{number}")
                write(f'"buy", @, vehicle = "{cars[-1]}", price = {money(dice.randrange(10_000, 300_000))}, purse = "bank"')
                continue
            car, other = dice.choice(cars), dice.choice(cars)
            if what < 0.30:
                first, second, tax = dice.randrange(100, 20_000), dice.randrange(100, 5_000), dice.randrange(0, 300)
                core = dice.choice((0, 0, 0, 1500))
                share = f'share = {{ {car} = 1, {other} = 2 }}' if other != car else f'to = "{car}"'
                write(f'"receipt", @, supplier = "Yard {number % 30}", number = "n{number}", paid = {{ cash = {money(first + core + second + tax)} }}, '
                      f'tax = {money(tax)}, total = {money(first + core + second + tax)}, line = [ {{ id = "l{number}", what = "part {number % 97}", '
                      f'unit = {money(first)}, kind = "part", source = "salvage", to = "{car}", taxed = true'
                      + (f', core = {money(core)}' if core else "") + f' }}, {{ what = "yard entrance", unit = {money(second)}, kind = "fee", {share} }} ]')
                if core:
                    lines_back.append(f"l{number - 1}")
            elif what < 0.33 and lines_back:
                write(f'"core back", @, line = "{lines_back.pop(0)}", amount = {dice.choice(("15.00", "12.00"))}, purse = "cash"')
            elif what < 0.60:
                write(f'"hours", @, vehicle = "{car}", operation = "work {number % 12}", own = {dice.randrange(1, 12) / 20}, again = true')
            elif what < 0.75:
                write(f'"trip", @, vehicle = "{car}", distance = {dice.randrange(1, 60)}, why = "parts"')
            elif what < 0.82:
                write(f'"finding", @, vehicle = "{car}", text = "=looks like a formula {number}, \\"quoted\\""')
            elif what < 0.88:
                write(f'"owner in", @, purse = "bank", amount = {money(dice.randrange(100, 50_000))}')
                if dice.random() < 0.3:
                    write(f'"void", @, entry = {number}, why = "typed twice"')
            elif what < 0.92:
                write(f'"receipt", @, supplier = "Counter", number = "s{number}", paid = {{ card = 12.00 }}, total = 12.00, line = [ {{ what = "oil, jug", '
                      f'unit = 12.00, kind = "stock", stock = "oil", gives = 5 }} ]')
                write(f'"draw", @, vehicle = "{car}", stock = "oil", qty = {dice.randrange(1, 4)}')
            elif what < 0.95:
                write(f'"recover", @, vehicle = "{car}", what = "seat", amount = {money(dice.randrange(100, 9_000))}, purse = "cash"')
            elif what < 0.97 and len(cars) > 20:
                cars.remove(car)
                write(f'"sell", @, vehicle = "{car}", price = {money(dice.randrange(50_000, 600_000))}, commission = 0.03, purse = "bank"')
            else:
                write(f'"move", @, from = "bank", to = "cash", amount = {money(dice.randrange(100, 90_000))}')
        out.write("]\n")


def figures(book):
    """Everything that is shown, as text."""
    shown = {}
    for words in (("vehicles",), ("due",), ("tray",), ("purses",), ("stock",), ("learn",), ("set",), ("entries",), ("entries", "--lines")):
        shown[" ".join(words)] = run(*words, "--json", "--book", book)
    tags = [line.split('"')[3] for line in shown["vehicles"].splitlines() if '"tag"' in line]
    for tag in tags:
        shown["show " + tag] = run("show", tag, "--detail", "--json", "--book", book)
    for year in ("2024", "2025"):
        path = place("year.xlsx")
        run("workbook", "year", year, path, "--book", book)
        workbook = openpyxl.load_workbook(path, read_only=True)
        # But for the line that says of which book it was made: its seals hold when each entry was typed.
        shown["year " + year] = "\n".join(repr(row) for sheet in workbook for row in sheet.iter_rows(values_only=True)
                                          if not str(row[0]).startswith("Made "))
    return shown, tags


began = time.monotonic()
write_events(place("events.toml"), given.entries)
first = place("first.book")
run("start", first)
run("post", place("events.toml"), "--book", first)
expected, tags = figures(first)
for kind in ((), ("--events",)):
    folder = place("export" + "".join(kind))
    run("export", folder, *kind, "--book", first)
    again = place("again" + "".join(kind) + ".book")
    run("restore", folder, "--book", again)
    run("check", "--book", again)
    found, _ = figures(again)
    for name, text in expected.items():
        if found[name] != text:
            apart = next((pair for pair in zip(text.splitlines(), found[name].splitlines()) if pair[0] != pair[1]), ("more or fewer lines", ""))
            sys.exit(f"made_again.py: {name} after export {' '.join(kind)}: {apart[0]!r} became {apart[1]!r} (seed {given.seed})")
print(f"{given.entries} entries, {len(tags)} cars: exported and made again twice, {len(expected)} answers the same each time, "
      f"{time.monotonic() - began:.0f} s (seed {given.seed})")
