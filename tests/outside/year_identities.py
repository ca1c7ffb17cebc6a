#!/usr/bin/env python3
"""The year workbooks of two years that follow each other, read back by another program: what must add up, and what the
sample jobs give by hand.

    year_identities.py FIRST.xlsx SECOND.xlsx
"""
import datetime
import sys
from decimal import Decimal

import openpyxl

cent = Decimal("0.01")


def money(value):
    return Decimal(str(value or 0)).quantize(cent)


def must(holds, what):
    if not holds:
        sys.exit(f"year_identities.py: does not hold: {what}")


def table(sheet, key):
    """The rows below the heading that begins with `key`, as far as the row "in all", which comes last."""
    rows = iter(sheet.iter_rows(values_only=True))
    heading = next(row for row in rows if row[0] == key)
    found = []
    for row in rows:
        found.append(dict(zip(heading, row)))
        if row[0] == "in all":
            return found[:-1], found[-1]
    sys.exit(f"year_identities.py: {sheet.title} has no row \"in all\"")


def added_up(rows, column):
    return sum((money(row[column]) for row in rows), Decimal(0))


def read(path):
    book = openpyxl.load_workbook(path, data_only=True)
    first = {row[0]: row[1] for row in book["Account"].iter_rows(values_only=True) if row[0] and row[1] is not None}
    vehicles, all_vehicles = table(book["Vehicles"], "Vehicle")
    brought, all_brought = table(book["Brought"], "Vehicle")
    by_tag = {row["Vehicle"]: row for row in brought}
    for row in vehicles + [all_vehicles]:
        row["Vehicle"] = row["Vehicle"].split(":", 1)[0]
        more = all_brought if row is all_vehicles else by_tag[row["Vehicle"]]
        row.update((key, value) for key, value in more.items() if key not in ("Vehicle", "State", "Cost of sales"))
        must(money(row["Cost of sales"]) == money(more["Cost of sales"]), f"{path}: the cost of sales of {row['Vehicle']}, both sheets")
    purses, all_purses = table(book["Purses"], "Purse")
    months, all_months = table(book["Months"], "Month")
    trial, all_trial = table(book["Trial"], "Account")

    for row in vehicles + [all_vehicles]:
        name = row["Vehicle"]
        must(money(row["Opening"]) + money(row["Added"]) - money(row["Recovered"]) - money(row["Closing"]) == money(row["Cost of sales"]),
             f"{path}: {name}: opening + added - recovered - closing = cost of sales")
        must(money(row["Sales"]) - money(row["Cost of sales"]) - money(row["Selling costs"]) + money(row["Other income"]) - money(row["Late cost"])
             == money(row["Result"]), f"{path}: {name}: the result")
    for rows, total, columns in ((vehicles, all_vehicles, ("Opening", "Added", "Recovered", "Closing", "Cost of sales", "Sales", "Result")),
                                 (months, all_months, ("Sales", "Cost of sales", "Selling costs", "Result")),
                                 (purses, all_purses, ("Opening", "In", "Out", "Closing"))):
        for column in columns:
            must(added_up(rows, column) == money(total[column]), f"{path}: the column {column} adds up")
    for row in purses:
        must(money(row["Opening"]) + money(row["In"]) - money(row["Out"]) == money(row["Closing"]), f"{path}: the purse {row['Purse']}")
    must(added_up(trial, "Debit") == added_up(trial, "Credit") != 0, f"{path}: the trial balance")
    words = {row[0]: row[1] for row in book["Year"].iter_rows(values_only=True) if row[0]}
    must(words["Checks: each must be zero"] == "agrees", f"{path}: its own checks")
    # The trial balance stands at the end: its purses and its inventory are those of the other sheets.
    def in_trial(*kinds):
        return sum((money(row["Debit"]) - money(row["Credit"]) for row in trial if row["Kind"] in kinds), Decimal(0))

    must(in_trial("purse") == money(all_purses["Closing"]), f"{path}: the purses of the trial balance")
    must(in_trial("vehicle cost", "recovered") == money(all_vehicles["Closing"]), f"{path}: the inventory of the trial balance")
    must(money(all_months["Result"]) == money(first["Result before own hours"]), f"{path}: the months and the year")
    must(money(all_vehicles["Closing"]) == money(first["Closing inventory, at cost"]), f"{path}: the inventory of the first page")
    # What the capital counts as owed is what the list of it says, debts on cards among them.
    capital = {row[0]: row[1] for row in book["Capital"].iter_rows(values_only=True) if row[0]}
    _, all_owed = table(book["Owed"], "By")
    must(money(capital["What is owed"]) == -money(all_owed["Amount"]), f"{path}: what is owed, in the capital and one by one")
    first["tax paid"] = capital["Paid on purchases, in the costs"]
    text = " ".join(str(cell) for row in book["Year"].iter_rows(values_only=True) for cell in row if cell)
    must("No tax advice" in text, f"{path}: says that it is no tax advice")
    return {row["Vehicle"]: row for row in vehicles}, all_vehicles, all_purses, all_months, first


before, all_before, purses_before, months_before, first_before = read(sys.argv[1])
after, all_after, purses_after, months_after, _ = read(sys.argv[2])
must(money(all_before["Closing"]) == money(all_after["Opening"]), "the inventory goes from one year to the next")
must(money(purses_before["Closing"]) == money(purses_after["Opening"]), "the purses go from one year to the next")

# By hand, from the sample jobs: the hatchback sold on 2025-04-15 with a cash profit of 881.94 (all of it in 2025); the pickup in
# pieces at the year's end, 3,668.99 less 3,285.00 recovered, and finished in 2026 with 6.99 not recovered and adverts of 24.00.
must(before["sprat"]["State"] == "sold" and before["sprat"]["Ended"] == datetime.datetime(2025, 4, 15), "the hatchback's sale")
must(money(before["sprat"]["Result"]) == Decimal("881.94"), "the hatchback's result")
must(before["drayman"]["State"] == "in pieces", "the pickup's state at the end of the first year")
must(money(before["drayman"]["Closing"]) == Decimal("383.99"), "the pickup's cost not yet recovered")
must(after["drayman"]["State"] == "finished" and money(after["drayman"]["Closing"]) == 0, "the pickup is finished")
must(money(after["drayman"]["Cost of sales"]) == Decimal("6.99"), "what was not recovered of the pickup")
must(money(after["drayman"]["Result"]) == Decimal("-30.99"), "the pickup's result")
must("sprat" not in after or money(after["sprat"]["Result"]) == 0, "nothing of the hatchback in the second year")
# The taxes of the papers of 2025 are 89.80; 18.72 came back, and 0.21 lay on the cold drink.
must(money(first_before["tax paid"]) == Decimal("70.87"), f"the tax in the costs of the first year: {first_before['tax paid']}")
print(f"both years add up: closing {all_before['Closing']} and {all_after['Closing']}, results {months_before['Result']} and {months_after['Result']}")
