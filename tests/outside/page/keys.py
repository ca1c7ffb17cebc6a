#!/usr/bin/env python3
"""A paper of six lines (two cars, a core, tax, a discount) by keyboard alone.

    keys.py PROGRAM

No more than 60 % of the keys that its events file has characters; each line stands under its line of the budget though
no name of one is typed; the book is the same as by the events file.
"""
import os

import harness
from harness import equal, expect

PAPER = """event = [
  { do = "receipt", date = 2026-03-06, supplier = "Millgate Parts", number = "40188", paid = { cash = 281.08 }, discount = 5.00, tax = 17.25, total = 281.08, line = [
    { what = "coolant pump with gasket", qty = 1, unit = 46.00, core = 18.00, to = "sprat", kind = "part", source = "reman", taxed = true, for = "coolant pump with gasket" },
    { what = "thermostat with housing seal", qty = 1, unit = 17.25, to = "sprat", kind = "part", source = "new", taxed = true, for = "thermostat with housing seal" },
    { what = "accessory belt", qty = 1, unit = 24.80, to = "sprat", kind = "part", source = "new", taxed = true, for = "accessory belt" },
    { what = "fuel pump module", qty = 1, unit = 135.28, to = "drayman", kind = "part", source = "new", taxed = true, for = "fuel pump module" },
    { what = "fuel filter", qty = 2, unit = 8.80, to = "drayman", kind = "part", source = "new", taxed = true, for = "fuel filter" },
    { what = "penetrating oil, can", qty = 1, unit = 9.90, to = "drayman", kind = "consumable", taxed = true, for = "penetrating oil, can" },
  ] },
]
"""
LINES = [("coolant pump with gasket", "", "46", "sprat", "18"), ("thermostat with housing seal", "", "17.25", "sprat", ""),
         ("accessory belt", "", "24.8", "sprat", ""), ("fuel pump module", "", "135.28", "drayman", ""),
         ("fuel filter", "2", "8.8", "drayman", ""), ("penetrating oil, can", "", "9.9", "drayman", "")]


def shop(given, name):
    at = harness.samples()
    book = harness.new_book(given.program, name)
    harness.run(given.program, "owner", "in", "5000", "--purse", "cash", "--date", "2026-03-01", book=book)
    for tag in ("drayman", "sprat"):
        harness.run(given.program, "buy", tag, "900", "--purse", "cash", "--date", "2026-03-02", "--job",
                    os.path.join(at, tag, "job.toml"), book=book)
    harness.run(given.program, "receipt", "sprat", "3.10", "clip", "--supplier", "Millgate Parts", "--purse", "cash",
                "--date", "2026-03-03", book=book)
    return book


def numbers(given, book, tag):
    """The number that each line of the car's budget has."""
    lines = {}

    def walk(value):
        if isinstance(value, dict):
            name = value.get("what") or value.get("operation") or value.get("name")
            number = value.get("number") or value.get("line")
            if name and isinstance(number, int):
                lines.setdefault(name, number)
            for each in value.values():
                walk(each)
        elif isinstance(value, list):
            for each in value:
                walk(each)
    walk(harness.figures(given.program, book, "show", tag))
    return lines


def by_keyboard(given, phone, book):
    keys = harness.Keys
    found = {tag: numbers(given, book, tag) for tag in ("sprat", "drayman")}
    phone.open("/paper/new")
    phone.driver.execute_script("document.querySelector('[name=supplier]').focus()")

    def at():
        return phone.driver.switch_to.active_element.get_attribute("name")

    def to(name):
        for _ in range(60):
            if at() == name:
                return
            phone.type(None, keys.ENTER)
        raise SystemExit(f"keys.py: Enter did not come to {name}; it stands at {at()}")

    phone.keys = 0
    phone.type(None, "Millgate Parts")
    to("number"), phone.type(None, "40188")
    to("date"), phone.type(None, "03062026")
    for at_line, (what, qty, unit, car, core) in enumerate(LINES, 1):
        line = f"line.{at_line}."
        to(line + "what"), phone.type(None, str(found[car][what]))
        if qty:
            to(line + "qty"), phone.type(None, qty)
        to(line + "unit"), phone.type(None, unit)
        to(line + "to")
        if phone.driver.switch_to.active_element.get_attribute("value") != car:
            phone.type(None, car[0])
        equal(phone.driver.switch_to.active_element.get_attribute("value"), car, f"line {at_line}: the car")
        if core:
            to(line + "core"), phone.type(None, core)
        to(line + "taxed"), phone.type(None, " ")
    to("tax"), phone.type(None, "17.25")
    to("discount"), phone.type(None, "5")
    to("total"), phone.type(None, "281.08")
    expect("as printed" in phone.text(".difference"), f"the difference: '{phone.text('.difference')}'")
    to("paid")
    if phone.driver.switch_to.active_element.get_attribute("value") != "cash":
        phone.type(None, "c")
    was = phone.all("html")[0]
    for _ in range(8):
        tag = phone.driver.switch_to.active_element.tag_name
        if tag == "button":
            break
        phone.type(None, keys.ENTER)
    phone.type(None, keys.ENTER)
    phone.left(was)
    return phone.keys


def main():
    given = harness.begin(__doc__)
    book, other = shop(given, "page.book"), shop(given, "file.book")
    house = harness.House(given.program, book)
    phone = harness.Phone(house, harness.TABLE)
    typed = by_keyboard(given, phone, book)
    phone.wait(lambda: phone.held() == 0, "the paper is in the book")
    events = os.path.join(harness.folder, "paper.toml")
    with open(events, "w", encoding="utf-8") as file:
        file.write(PAPER)
    harness.run(given.program, "post", events, book=other)
    for words in (["show", "sprat"], ["show", "drayman"], ["purses"], ["vehicles"]):
        equal(harness.differences(harness.figures(given.program, book, *words),
                                  harness.figures(given.program, other, *words)), [],
              " ".join(words) + ": the book by keyboard beside the book by its events file")
    expect(typed <= 0.6 * len(PAPER), f"{typed} keys for a file of {len(PAPER)} characters, at most 60 % expected")
    print(f"{typed} keys for a file of {len(PAPER)} characters: {100 * typed / len(PAPER):.0f} %")
    phone.close()
    house.stop()
    harness.end()


if __name__ == "__main__":
    main()
