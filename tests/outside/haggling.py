#!/usr/bin/python3
"""What an appraisal's sheet Haggling says after inputs were changed, against the program's answer for the changed job.

  haggling.py FILE.xlsx ANSWER.json [SHEET!COLUMN=TEXT>COLUMN=NUMBER]...

ANSWER.json: of appraise --json, with the change in the job file. "Basis!A=Fees on purchase>B=400": 400 into column B of the
row whose column A holds that text. Amounts to the cent, chances to a millionth; a row that the program leaves out must
weigh nothing. Ends with status 1 on a difference, 3 where the spreadsheet program fails.
"""
import json
import sys

from office import Office


def row_of(book, sheet, column, text):
    for row in range(1, book.used(sheet)[1] + 2):
        if book.value(f"{sheet}!{column}{row}") == text:
            return row
    sys.exit(f"{sheet}: no row in whose column {column} stands {text!r}")


def main():
    file, answer, changes = sys.argv[1], sys.argv[2], sys.argv[3:]
    with open(answer, encoding="utf-8") as text:
        told = json.load(text)["costs_to_name"]
    wrong, rows = [], {}
    with Office() as office:
        book = office.open(file)
        for change in changes:
            where, what = change.split(">")
            place, text = where.split("=", 1)
            sheet, column = place.split("!")
            into, number = what.split("=")
            book.set(f"{sheet}!{into}{row_of(book, sheet, column, text)}", float(number))
        at = row_of(book, "Haggling", "A", "What") + 1
        while book.value(f"Haggling!A{at}") != "expected, in all":
            name, how, amount, chance = (book.value(f"Haggling!{column}{at}") for column in "ABCD")
            said = f"{name}, {how}" if how == "taken off by a buyer" else f"{name}: {how}" if how else name
            rows[said] = (amount, chance)
            at += 1
        in_all = book.value(f"Haggling!E{at}")
        book.close()
    for cost in told:
        amount, chance = rows.pop(cost["what"], (None, None))
        if amount is None or abs(amount - float(cost["amount"])) > 0.0051 or abs(chance - cost["chance"]) > 1e-6:
            wrong.append(f"{cost['what']}: {amount} with {chance}, the program says {cost['amount']} with {cost['chance']}")
    wrong += [f"{said}: {amount} with {chance}, the program does not name it" for said, (amount, chance) in rows.items()
              if abs(amount * chance) > 0.005]
    whole = sum(float(cost["amount"]) * cost["chance"] for cost in told)
    if abs(whole - in_all) > 0.01 * len(told):
        wrong.append(f"in all {in_all}, the program's come to {whole}")
    for line in wrong:
        print(f"{file}: {line}")
    print(f"{file}: {len(told)} costs to name after {len(changes)} changes, {len(wrong)} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
