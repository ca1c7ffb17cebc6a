#!/usr/bin/python3
"""Every column of every list in these workbooks holds something in one of them at least: a figure that nobody fills, or
a cell that nobody writes, shows as a column of nothing under its heading.

  columns.py FILE.xlsx...

Lists are the tables with a heading that stays in sight (a frozen row); those with the same headings are one. A nought is
nothing: a figure that was forgotten is one. A copy of the first file with one heading more must be noticed, or the check
itself is broken. Ends with status 1 and the names of what is empty. Needs Debian's python3-openpyxl.
"""
import os
import re
import sys
import tempfile

import openpyxl

# Nought or empty until the reader of a workbook has typed something.
TYPED = {"Differs", "Differs by", "On the statement", "Got, 1"}
KIND = re.compile(r"(appraisal|profit report|job|year|Shopping)", re.I)


def lists_of(book):
    """Of each list: its sheet, the row of its headings, these headings."""
    for sheet in book.worksheets:
        pane = sheet.sheet_view.pane
        if pane is not None and pane.ySplit:
            head = int(pane.ySplit)
            yield sheet, head, next(sheet.iter_rows(min_row=head, max_row=head, values_only=True))


def empty_columns(paths):
    """How many columns there are, and which hold nothing: kind of workbook, sheet, heading."""
    filled, seen = set(), {}
    for path in paths:
        book = openpyxl.load_workbook(path, data_only=True)
        kind = KIND.search(book.properties.title).group()
        for sheet, head, headings in lists_of(book):
            rows = list(sheet.iter_rows(min_row=head + 1, values_only=True))
            for column, heading in enumerate(headings):
                if heading in (None, "") or heading in TYPED:
                    continue
                name = (kind, headings, heading)
                seen.setdefault(name, sheet.title)
                if any(row[column] not in (None, "", 0) for row in rows):
                    filled.add(name)
    return len(seen), [(name[0], seen[name], name[2]) for name in seen if name not in filled]


def is_noticed(path):
    """Whether a heading with nothing under it, put beside those of a list, is found."""
    book = openpyxl.load_workbook(path)
    sheet, head, headings = next(lists_of(book))
    sheet.cell(head, len(headings) + 1, "planted")
    with tempfile.TemporaryDirectory() as folder:
        copy = os.path.join(folder, "planted.xlsx")
        book.save(copy)
        return any(heading == "planted" for _, _, heading in empty_columns([copy])[1])


def main(paths):
    if not paths:
        print("columns.py: found nothing, expected workbooks", file=sys.stderr)
        return 2
    if not is_noticed(paths[0]):
        print("columns.py: a column that was planted was not seen")
        return 1
    count, empty = empty_columns(paths)
    for kind, sheet, heading in empty:
        print(f'{kind} workbook, sheet {sheet}: nothing stands under "{heading}" in any workbook made here')
    print(f"{count} columns in the lists of {len(paths)} workbooks, {len(empty)} of them empty")
    return 1 if empty else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
