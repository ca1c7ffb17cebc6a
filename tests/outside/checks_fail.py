#!/usr/bin/python3
"""Falsifies one cell for each line of each block of checks, in an independent spreadsheet program: the word must change.

  checks_fail.py FILE.xlsx...

Each line compares two figures; the test puts another number over each cell that the line's formula names, and over those
of the ranges that it names until one is noticed, and looks at the word above the lines. Status 1 where a check cannot fail, 3 where the program fails.
"""
import re
import sys

from office import Office

REFERENCE = re.compile(r"\$?([A-Za-z]+)\.\$?([A-Z]+)\$?(\d+)(?::\$?[A-Z]+\$?(\d+))?")


def block(book):
    """(row of the word, rows of the lines) on the first sheet."""
    first, row = book.sheets()[0], 1
    while book.value(f"{first}!A{row}") != "Checks: each must be zero":
        row += 1
        if row > 200:
            return None, []
    lines, at = [], row + 1
    while book.formula(f"{first}!B{at}").startswith("="):
        lines.append(at)
        at += 1
    return row, lines


def check(office, file):
    book = office.open(file)
    first = book.sheets()[0]
    word, lines = block(book)
    wrong = []
    if word is None:
        print(f"{file}: no checks")
        book.close()
        return False
    if book.value(f"{first}!B{word}") != "agrees":
        wrong.append(f"says {book.value(f'{first}!B{word}')} of a workbook as it was made")
    for row in lines:
        name, formula = book.value(f"{first}!A{row}"), book.formula(f"{first}!B{row}")
        noticed = []
        named = [f"{sheet}!{column}{number}" for sheet, column, first, last in REFERENCE.findall(formula) if sheet != "Inputs"
                 for number in range(int(first), int(last or first) + 1)]
        for where in named:
            if noticed:
                break
            was = book.formula(where)
            value = book.value(where)
            if not isinstance(value, float):
                continue
            book.set(where, value + 1.0)
            if book.value(f"{first}!B{row}") != 0 and book.value(f"{first}!B{word}") == "does not agree":
                noticed.append(where)
            book.set(where, was if was.startswith("=") else value)
        if not noticed:
            wrong.append(f"\"{name}\" cannot fail: {formula[:120]}")
        elif book.value(f"{first}!B{word}") != "agrees":
            wrong.append(f"\"{name}\": the word does not come back")
    book.close()
    for line in wrong:
        print(f"{file}: {line}")
    print(f"{file}: {len(lines)} checks falsified, {len(wrong)} wrong")
    return not wrong


def main():
    with Office() as office:
        return 0 if all([check(office, file) for file in sys.argv[1:]]) else 1


if __name__ == "__main__":
    sys.exit(main())
