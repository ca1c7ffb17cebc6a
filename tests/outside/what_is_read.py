#!/usr/bin/env python3
"""What somebody reads off the invented workbooks and would be misled by: units, names, what a picture is drawn from, and
words that stand for sheets that are not there.

    what_is_read.py FOLDER
"""
import pathlib
import re
import sys
import zipfile

import openpyxl
from openpyxl.utils import get_column_letter, range_boundaries

folder = pathlib.Path(sys.argv[1])


def must(holds, what):
    if not holds:
        sys.exit(f"what_is_read.py: does not hold: {what}")


def opened(name):
    return openpyxl.load_workbook(folder / name, data_only=True)


def charts(name):
    with zipfile.ZipFile(folder / name) as parts:
        return [parts.read(each).decode() for each in parts.namelist() if re.fullmatch(r"xl/charts/chart\d+\.xml", each)]


def rows(sheet):
    return {row[0].value: row for row in sheet.iter_rows() if row[0].value is not None}


def drawn(name, title):
    """The cells that each series of the picture is drawn from, by sheet and range."""
    chart = next(xml for xml in charts(name) if title in xml)
    return re.findall(r"<c:(?:val|yVal)><c:numRef><c:f>([A-Za-z]+)!([$A-Z0-9:]+)</c:f>", chart)


# Factors and hours keep their decimals in a currency that has none, and money has none.
yen = opened("appraisal-yen.xlsx")
moves = rows(yen["Moves"])
for name, decimals in (("sound value", 0), ("hours: rebuild and time", 1), ("pace", 1)):
    shown = moves[name][1].number_format
    must(len(shown.partition(".")[2].rstrip("#")) == decimals, f"Moves of yen: {name} is shown as {shown}")
must(rows(yen["Basis"])["Pace"][1].number_format == "#,##0.0####", "Basis of yen: the decimals of the pace")
must("not set" in rows(yen["Basis"])["Hours a week"][1].number_format, "Basis: hours that nobody set are no number")
# The picture of the moves has every row, and a chance is at most one.
for sheet, cells in drawn("appraisal-yen.xlsx", "What moves the expected profit"):
    left, top, right, bottom = range_boundaries(cells)
    must(bottom - top + 1 == 30, f"the moves are drawn from {sheet}!{cells}, expected 30 rows")
spread = next(xml for xml in charts("appraisal-yen.xlsx") if "Spread of the cash profit" in xml)
must('<c:max val="1"/>' in spread, "the axis of the chances ends at one")

# What only feeds a picture stands in columns or on a sheet that are not shown.
for name, title in (("appraisal.xlsx", "Price on the sold basis"), ("appraisal.xlsx", "Gain of each fix")):
    for sheet, cells in drawn(name, title)[1:]:
        column = get_column_letter(range_boundaries(cells)[0])
        there = opened(name)[sheet]
        must(there.sheet_state != "visible" or there.column_dimensions[column].hidden, f"{name}: {sheet}!{cells} of \"{title}\" is shown")

# One day of money is no line, and the first page says why nothing is compared.
must(not any("Cash in the vehicle" in xml for xml in charts("profit-one-day.xlsx")), "a picture of one day of cash")
result = opened("profit-one-day.xlsx")["Result"]
must(any("after the purchase on" in str(row[0]) for row in result.iter_rows(values_only=True)), "why there is no variance")
cash = next(xml for xml in charts("profit-sold.xlsx") if "Cash in the vehicle" in xml)
must('<c:min val="' in cash and '<c:max val="' in cash, "the ends of the axis of days")

# Who gets three sheets is told of no other.
short = opened("profit-short.xlsx")
hidden = {sheet.title for sheet in short if sheet.sheet_state != "visible"}
must("Account" in hidden and "Log" in hidden, "the short one hides what it is made of")
said = [str(cell) for sheet in short if sheet.sheet_state == "visible" for row in sheet.iter_rows(values_only=True) for cell in row if cell]
for name in hidden:
    must(not any(re.search(rf"\b{name} less|less {name}\b", words) for words in said), f"the short one names its hidden sheet {name}")

# A card that is owed on is owed in the capital too, and the tax that was paid stands beside that collected.
capital = rows(opened("year.xlsx")["Capital"])
must(capital["What is owed"][1].value == -867.15, f"the capital: what is owed is {capital['What is owed'][1].value}")
must(capital["Paid on purchases, in the costs"][1].value == 61.18, "the tax that was paid")
must(not any("Sales and cost of sales" in xml for xml in charts("year-empty.xlsx")), "a picture of months without a sale")

# In the yard: whence, and the deposit beside the price.
words = [str(row[1]) for row in opened("shopping.xlsx")["Yard"].iter_rows(values_only=True)]
must(any(line.startswith("radiator\nsalvage; with the fan if it turns; ") and line.endswith("; +8.00 core deposit on each") for line in words),
     f"the radiator's words: {words}")
print("what is read: units, names and pictures hold")
