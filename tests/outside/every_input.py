#!/usr/bin/python3
"""Changes every input cell of workbooks, one by one, in an independent spreadsheet program.

  every_input.py FILE.xlsx...

Every cell that the file leaves unlocked is one: each of those that the last sheet lists, alone or as part of a column, and
each box to tick or to fill in. With another number in an input the count of inputs that differ is 1 and the sheets that
hold what cannot follow say so; a box contradicts nothing and is not counted. With the old number in it again everything
is as it was. At least one cell beside the list follows it, or the input stands in FROZEN beside the row and figure of its
sheet for which that is right. Ends with status 1 where this does not hold; 3 where the program fails.
"""
import sys

import openpyxl
from openpyxl.utils import range_boundaries

from office import Office, place

# What is typed here moves nothing else in its workbook, and the note that says why.
FROZEN = {"Account": {"Shop's hour": ("Own hours", 0)}}  # nothing follows an hour's price where no hours are
# Where the head says that it no longer holds: the word that must be there after a change, by the first sheet.
HEADS = {"Answer": "Changed since it was made", "Result": "Changed since it was made", "Job": "Changed since it was made",
         "Year": "Changed since it was made", "Shopping": "Changed since it was made"}
STALE = ("Tests", "Plan", "Ways", "Risk", "Moves")


def listed(book):
    """Place -> number when it was made or "" of every input listed alone, and the columns of (sheet, range) of the others."""
    found, columns, row = {}, [], 7
    while book.value(f"Inputs!A{row}") not in ("", "none: nothing here may be changed"):
        sheet, cells, made = (book.value(f"Inputs!{column}{row}") for column in "ABC")
        if ":" in cells:
            columns.append((sheet, range_boundaries(cells)))
        else:
            found[f"{sheet}!{cells}"] = "" if made == "empty" else made
        row += 1
    return found, columns


def unlocked(file):
    """(sheet, cell) of all that may be typed into, by the file itself."""
    return [(sheet.title, cell) for sheet in openpyxl.load_workbook(file) for row in sheet.iter_rows() for cell in row
            if cell.has_style and not cell.protection.locked]


def inputs_of(book, file):
    """(place, what stands there, whether it is counted) of every cell that may be typed into; those listed and locked."""
    alone, columns = listed(book)
    found = []
    for sheet, cell in unlocked(file):
        where = f"{sheet}!{cell.coordinate}"
        in_column = any(sheet == other and left <= cell.column <= right and top <= cell.row <= bottom
                        for other, (left, top, right, bottom) in columns)
        if where in alone:
            found.append((where, alone.pop(where), True))
        elif in_column:
            found.append((where, book.value(where), True))
        else:
            found.append((where, "", False) if cell.number_format != "@" else (where, None, False))
    return found, sorted(alone)


class Sheets:
    """What stands on each sheet; of those that the test has not asked for nothing is read."""

    def __init__(self, book):
        self.ranges = {}
        for sheet in book.sheets():
            columns, rows = book.used(sheet)
            self.ranges[sheet] = book.document.Sheets.getByName(sheet).getCellRangeByPosition(0, 0, columns, rows)

    def read(self, sheet):
        return self.ranges[sheet].DataArray

    def everything(self):
        return {sheet: self.read(sheet) for sheet in self.ranges if sheet not in ("Inputs", "Names")}


def another(made):
    if made is None:  # a box to tick
        return "x"
    if made == "":
        return 1.0
    if made in (0, 1):
        return 0.5 if made == 0 else 0.0
    if 0 < made < 1:
        return made / 2
    return made * 1.25 + 1 if made > 0 else made * 1.25 - 1


def label(book, where):
    sheet, cell = where.rsplit("!", 1)
    row = "".join(letter for letter in cell if letter.isdigit())
    return str(book.value(f"{sheet}!A{row}"))


def differing(was, now):
    """The places that show something else, column and row."""
    return [(column, row) for row, (before, after) in enumerate(zip(was, now)) if before != after
            for column, (old, new) in enumerate(zip(before, after)) if old != new]


def follows(sheet, was, now, own):
    """Whether a cell beside the input itself does, and not only the line that says that something was changed."""
    return any((sheet, column, row) != own and not (isinstance(now[row][column], str) and "hanged since" in now[row][column])
               for column, row in differing(was, now))


def check(office, file):
    book = office.open(file)
    first = book.sheets()[0]
    wrong = []
    sheets = Sheets(book)
    before = sheets.everything()
    inputs, locked = inputs_of(book, file)
    wrong += [f"{where} is listed as an input and is locked" for where in locked]
    said = HEADS[first]
    for where, made, counted in inputs:
        book.set(where, another(made))
        own = place(where)
        must_read = {first, *(STALE if first == "Answer" else ())}
        now, followed = {}, False
        for sheet in [*must_read, own[0], *before]:
            if sheet in now or (followed and sheet not in must_read):
                continue
            now[sheet] = sheets.read(sheet)
            followed = followed or follows(sheet, before[sheet], now[sheet], own)
        stands = [cell for row in now[first] for cell in row if isinstance(cell, str)]
        if book.value("Inputs!E4") != (1 if counted else 0):
            wrong.append(f"{where}: {made} became {another(made)} and {book.value('Inputs!E4')} inputs differ")
        if counted and not any(said in text for text in stands):
            wrong.append(f"{where}: the first sheet does not say that it was changed")
        if first == "Answer":
            if any(text.startswith(("Buy", "Offer less", "Test first")) for text in stands):
                wrong.append(f"{where}: the verdict still stands")
            for sheet in STALE:
                if not any("Changed since it was made" in str(cell) for row in now[sheet][:4] for cell in row):
                    wrong.append(f"{where}: {sheet} does not say that it is of before")
        because = FROZEN.get(own[0], {}).get(label(book, where))
        if not followed and not (because is not None and because in [row[:2] for row in now[own[0]]]):
            wrong.append(f"{where} ({label(book, where)}): nothing follows it")
        book.set(where, "" if made is None else made)
    after = sheets.everything()
    for sheet, cells in after.items():
        for column, row in differing(before[sheet], cells):
            wrong.append(f"after all was put back, {sheet} differs in column {column + 1}, row {row + 1}")
    book.close()
    for line in wrong:
        print(f"{file}: {line}")
    boxes = sum(not counted for _, _, counted in inputs)
    print(f"{file}: {len(inputs) - boxes} inputs and {boxes} boxes changed one by one, {len(wrong)} wrong")
    return not wrong


def main():
    with Office() as office:
        return 0 if all([check(office, file) for file in sys.argv[1:]]) else 1


if __name__ == "__main__":
    sys.exit(main())
