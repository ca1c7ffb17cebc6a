#!/usr/bin/python3
"""Has an independent spreadsheet program recalculate workbooks, and compares.

  recalculate.py FILE.xlsx...
      Every formula cell's stored value against the recalculated one: money to the cent (in fact to a millionth of
      the currency), other numbers to 1e-9 of their size, texts equal; every other text cell unchanged. A copy of the
      first file with one stored value falsified must be noticed, or the check itself is broken.
  recalculate.py FILE.xlsx [--set SHEET!CELL=VALUE | --set NAME=VALUE]... --names NAME,NAME,...
      Changes input cells, recalculates, prints the named cells as one line of JSON (an empty one as null).
  recalculate.py FILE.xlsx --set ... --equals OTHER.xlsx [--but SHEET...] [--by-name SHEET...]
      Changes input cells, recalculates, and compares every formula cell with what OTHER stores: what the program itself
      gives for the changed input; sheets named by --but, whose figures are sampled, are left out. On those named by
      --by-name, which stand in the order of their amounts, rows are matched by what their first column says.
  recalculate.py FILE.xlsx --find SHEET!COLUMN=TEXT
      Prints the cells of that column that hold just this text, or whose first line does: "B7 B9".

Ends with status 1 on any difference, 2 on wrong usage, 3 where the spreadsheet program fails. Needs Debian's
python3-openpyxl and libreoffice-calc-nogui.
"""
import argparse
import json
import os
import re
import sys
import tempfile
import zipfile

import openpyxl

from office import Office

MONEY = re.compile(r"#,##0(\.0+)?$")


def recalculated(files, folder):
    """The recalculated copies of the files, in order."""
    with Office() as office:
        return [office.convert(file, "xlsx", os.path.join(folder, str(number))) for number, file in enumerate(files)]


def shown(value):
    return "" if value is None else value


def differ(stored, again, number_format):
    stored, again = shown(stored), shown(again)
    numbers = (int, float)
    if isinstance(stored, numbers) and isinstance(again, numbers) and not isinstance(stored, bool):
        if MONEY.match(number_format):
            return abs(stored - again) > 1e-6
        return abs(stored - again) > 1e-9 * max(1.0, abs(stored), abs(again))
    return stored != again


def rows_by_name(sheet, other, by_name):
    """Row of `sheet` -> row of `other`: the same, or the one that says the same in its first column."""
    if not by_name:
        return {row: row for row in range(1, sheet.max_row + 1)}
    there = {other.cell(row, 1).value: row for row in range(1, other.max_row + 1)}
    return {row: there.get(sheet.cell(row, 1).value, row) for row in range(1, sheet.max_row + 1)}


def comparison(original, again, texts_too=True, but=(), by_name=()):
    """(formula cells compared, text cells compared, list of differences)"""
    formulas = openpyxl.load_workbook(original)
    stored = openpyxl.load_workbook(original, data_only=True)
    fresh = openpyxl.load_workbook(again, data_only=True)
    counted, texts, wrong = 0, 0, []
    if formulas.sheetnames != fresh.sheetnames:
        wrong.append(f"sheets {formulas.sheetnames} became {fresh.sheetnames}")
        return counted, texts, wrong
    for sheet in formulas:
        if sheet.title in but:
            continue
        there = rows_by_name(stored[sheet.title], fresh[sheet.title], sheet.title in by_name)
        for row in sheet.iter_rows():
            for cell in row:
                place = f"{sheet.title}!{cell.coordinate}"
                was = stored[sheet.title][cell.coordinate].value
                now = fresh[sheet.title].cell(there[cell.row], cell.column).value
                if cell.data_type == "f":
                    counted += 1
                    if differ(was, now, cell.number_format):
                        wrong.append(f"{place}: {cell.value} is stored as {was!r} and recalculated as {now!r}")
                elif texts_too and cell.data_type in ("s", "inlineStr"):
                    texts += 1
                    if isinstance(now, (int, float)) or not same_text(was, now):
                        wrong.append(f"{place}: text {str(was)[:60]!r} became {str(now)[:60]!r}")
    return counted, texts, wrong


def same_text(was, now):
    # The reader leaves the escape of a literal "_x0041_" as it stands in the file (ST_Xstring); the other program
    # reads it and writes it its own way.
    def plain(text):
        return re.sub(r"_x005F_", "_", str(shown(text))).replace("_x000D_", "")
    return plain(was) == plain(now)


def falsified(file, folder):
    """A copy with the stored number of one money formula changed."""
    path = os.path.join(folder, "falsified.xlsx")
    done = False
    with zipfile.ZipFile(file) as source, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        for item in source.infolist():
            data = source.read(item)
            if not done and item.filename.startswith("xl/worksheets/sheet"):
                text = data.decode("utf-8")
                changed = re.sub(r"(</f><v>)(-?[0-9.]+)(</v>)", lambda m: m[1] + str(float(m[2]) + 0.01) + m[3], text, count=1)
                done = changed != text
                data = changed.encode("utf-8")
            out.writestr(item, data)
    return path if done else None


def compare(files):
    status = 0
    with tempfile.TemporaryDirectory() as folder:
        lie = falsified(files[0], folder)
        again = recalculated(files + ([lie] if lie else []), folder)
        for file, fresh in zip(files, again):
            counted, texts, wrong = comparison(file, fresh)
            for line in wrong:
                print(f"{os.path.basename(file)}: {line}")
            print(f"{os.path.basename(file)}: {counted} formula cells and {texts} text cells compared, {len(wrong)} differ")
            if wrong or counted == 0:
                status = 1
        if lie:
            noticed = len(comparison(lie, again[-1])[2])
            print(f"a falsified value is noticed: {noticed == 1}")
            if noticed != 1:
                status = 1
        else:
            print("no stored value could be falsified: the check proves nothing")
            status = 1
    return status


def place_of(book, where):
    return where if "!" in where else book.named(where).replace(".", "!").replace("$", "")


def typed(text):
    try:
        return float(text)
    except ValueError:
        return text


def changed(file, settings, names, other, but, by_name):
    with Office() as office, tempfile.TemporaryDirectory() as folder:
        book = office.open(file)
        for setting in settings:
            where, value = setting.split("=", 1)
            cell = place_of(book, where)
            if book.is_formula(cell):
                print(f"{where} holds a formula, expected an input cell", file=sys.stderr)
                return 2
            book.set(cell, typed(value))
        answer = {name: book.value(place_of(book, name)) for name in names}
        again = os.path.join(folder, "again.xlsx")
        if other:
            book.keep(again, "xlsx")
        book.close()
        if other:
            counted, _, wrong = comparison(other, again, texts_too=False, but=but, by_name=by_name)
            for line in wrong:
                print(line)
            print(f"{os.path.basename(file)} with {', '.join(settings)}: {counted} formula cells compared with "
                  f"{os.path.basename(other)}, {len(wrong)} differ")
            return 1 if wrong or counted == 0 else 0
    def plain(value):
        return None if value == "" else int(value) if isinstance(value, float) and value.is_integer() else value
    print(json.dumps({name: plain(value) for name, value in answer.items()}))
    return 0


def find(file, what):
    where, text = what.split("=", 1)
    sheet, column = where.rsplit("!", 1)
    rows = openpyxl.load_workbook(file)[sheet][column]
    # What stands below the first line of a cell says more of it.
    cells = [cell.coordinate for cell in rows if text in (shown(cell.value), str(shown(cell.value)).split("\n", 1)[0])]
    print(" ".join(cells))
    return 0 if cells else 1


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("files", nargs="+")
    words.add_argument("--set", action="append", default=[], dest="settings")
    words.add_argument("--names", default="")
    words.add_argument("--equals")
    words.add_argument("--but", nargs="*", default=[])
    words.add_argument("--by-name", nargs="*", default=[])
    words.add_argument("--find")
    given = words.parse_args()
    if given.find:
        return find(given.files[0], given.find)
    if given.settings or given.names:
        return changed(given.files[0], given.settings, [name for name in given.names.split(",") if name], given.equals, given.but, given.by_name)
    return compare(given.files)


if __name__ == "__main__":
    sys.exit(main())
