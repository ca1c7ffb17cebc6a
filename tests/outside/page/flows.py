#!/usr/bin/env python3
"""A whole job by the page alone, from looking at a car to its profit, beside the same job by commands.

    flows.py PROGRAM

The car of the sample job "sprat": appraised and kept at the prompt, all else by page on a phone. The book that results
has the figures of one to which the same events were posted, to the cent, and `check` finds both sound.
"""
import base64
import os

import harness
import taps
from harness import By, equal, expect

EVENTS = """event = [
  {{ do = "finding", date = {day}, vehicle = "sprat", text = "tests seen, before it was decided", seen = ["{test}={outcome}"] }},
  {{ do = "buy", date = {day}, vehicle = "sprat", price = 1050.00, purse = "cash", fees = [{{ name = "title", amount = 62.00 }}] }},
  {{ do = "receipt", date = {day}, supplier = "Bexley Recovery", paid = {{ cash = 95.00 }}, total = 95.00, line = [
    {{ kind = "part", what = "tow, 17 miles", qty = 1, unit = 95.00, to = "sprat" }} ] }},
  {{ do = "hours", date = {day}, vehicle = "sprat", operation = "opening up", own = 1.50 }},
  {{ do = "receipt", date = {day}, supplier = "Millgate Parts", number = "40188", paid = {{ cash = 89.60 }}, tax = 8.35, total = 89.60, line = [
    {{ what = "coolant pump with gasket", qty = 1, unit = 46.00, core = 18.00, kind = "part", to = "sprat", taxed = true }},
    {{ what = "thermostat with housing seal", kind = "part", qty = 1, unit = 17.25, to = "sprat", taxed = true }} ] }},
  {{ do = "finding", date = {day}, vehicle = "sprat", text = "impeller gone", cause = "coolant pump failed" }},
  {{ do = "core back", date = {day}, line = "{core}", qty = 1, amount = 18.00, purse = "cash" }},
  {{ do = "done", date = {day}, vehicle = "sprat", lines = ["accessory belt"] }},
  {{ do = "advertised", date = {day}, vehicle = "sprat", price = 3490.00 }},
  {{ do = "sell", date = {day}, vehicle = "sprat", price = 3250.00, purse = "cash" }},
]
"""
TEST, OUTCOME = "combustion gas in the coolant", "no change"


def form_of(phone, what):
    """The form with this `do`, its fold opened."""
    field = next(each for each in phone.all("input[name=do]") if each.get_attribute("value") == what)
    form = field.find_element(By.XPATH, "ancestor::form")
    for fold in form.find_elements(By.XPATH, "ancestor::details") + form.find_elements(By.TAG_NAME, "details"):
        if not fold.get_attribute("open"):
            phone.tap(fold.find_element(By.TAG_NAME, "summary"))
    return form


def fill(phone, form, fields):
    for name, value in fields.items():
        field = form.find_element(By.CSS_SELECTOR, f"[name='{name}']")
        if field.tag_name == "select":
            phone.driver.execute_script("arguments[0].value = arguments[1]", field, value)
            equal(field.get_attribute("value"), value, f"{name}: the choice")
        elif field.get_attribute("type") == "checkbox":
            if field.is_selected() != (value == "on"):
                phone.tap(field)
        else:
            phone.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", field)
            field.clear()
            phone.type(field, value)


def send(phone, form, button):
    was = phone.all("html")[0]
    phone.tap(next(each for each in form.find_elements(By.CSS_SELECTOR, "button") if each.text.startswith(button)))
    phone.left(was)


def by_page(phone, given, book):
    phone.open("/")
    phone.go("Seller", "nav")
    phone.go("sprat", "main")
    before = phone.text("main .figure")
    phone.go(OUTCOME, "#tests")
    expect(phone.text("main .figure") != before, f"an outcome changes the answer: still {before}")
    said = harness.figures(given.program, book, "appraise", "sprat", "--seen", f"{TEST}={OUTCOME}")
    expect("sprat" in str(said), "the command appraises the car as well")
    bought = form_of(phone, "buy")
    fill(phone, bought, {"price": "1050", "purse": "cash", "fees.1.name": "title", "fees.1.amount": "62"})
    send(phone, bought, "Bought")
    expect("/car/sprat" in phone.driver.current_url, f"bought: the car's own page follows, not {phone.driver.current_url}")

    phone.open("/receipt?car=sprat")
    quick = form_of(phone, "receipt")
    quick.find_element(By.CSS_SELECTOR, "input[data-photo]").send_keys(taps.photo())
    fill(phone, quick, {"amount": "95", "what": "tow, 17 miles", "supplier": "Bexley Recovery", "purse": "cash"})
    send(phone, quick, "Keep")
    phone.wait(lambda: phone.held() == 0, "the quick line is in the book")

    phone.go("Tray", "nav")
    phone.go(phone.all("main tbody th a")[0])
    expect(phone.all(".pane img"), "the photo stands beside the form of its paper")
    paper = form_of(phone, "receipt")
    fill(phone, paper, {"line.1.what": "tow, 17 miles", "line.1.unit": "95", "line.1.to": "sprat", "total": "95",
                        "paid": "cash"})
    expect("as printed" in phone.text(".difference"), f"the paper's difference: {phone.text('.difference')}")
    send(phone, paper, "Keep")

    phone.open("/hours?car=sprat")
    hours = form_of(phone, "hours")
    fill(phone, hours, {"own": "1.5", "operation": "opening up"})
    send(phone, hours, "Keep")

    phone.open("/paper/new")
    paper = form_of(phone, "receipt")
    fill(phone, paper, {
        "supplier": "Millgate Parts", "number": "40188",
        "line.1.what": "coolant pump with gasket", "line.1.unit": "46", "line.1.core": "18", "line.1.to": "sprat",
        "line.1.taxed": "on", "line.2.what": "thermostat with housing seal", "line.2.unit": "17.25",
        "line.2.to": "sprat", "line.2.taxed": "on", "tax": "8.35", "total": "89.60", "paid": "cash"})
    send(phone, paper, "Keep")

    phone.open("/go-on/sprat")
    found = form_of(phone, "finding")
    fill(phone, found, {"text": "impeller gone", "cause": "coolant pump failed"})
    send(phone, found, "Keep")
    expect(phone.all("main .figure"), "with the cause known, go on or stop has an answer")

    phone.open("/due")
    phone.tap(next(each for each in phone.all("summary") if "coolant pump" in each.text))
    phone.go("Brought back")

    phone.open("/car/sprat")
    row = next(each for each in phone.all("tr") if "accessory belt" in each.text)
    phone.go(row.find_element(By.CSS_SELECTOR, "button"))

    phone.open("/sell/sprat")
    advert = form_of(phone, "advertised")
    fill(phone, advert, {"price": "3490"})
    send(phone, advert, "Advertise")
    sale = form_of(phone, "sell")
    fill(phone, sale, {"price": "3250", "purse": "cash"})
    send(phone, sale, "Sold")
    expect("/report/sprat" in phone.driver.current_url, f"sold: the report follows, not {phone.driver.current_url}")
    phone.wait(lambda: phone.held() == 0, "all of it is in the book")


def workbooks(phone, path):
    """What the page offers for download is a workbook."""
    phone.open(path)
    offered = [each for each in phone.driver.execute_script(
        "return [...document.querySelectorAll('main a')].map((a) => a.getAttribute('href'))") if "/workbook/" in each]
    expect(offered, f"{path}: no workbook is offered")
    for each in offered:
        found = phone.driver.execute_async_script(
            "const done = arguments[1]; fetch(arguments[0]).then(async (a) => done([a.status, "
            "btoa(String.fromCharCode(...new Uint8Array(await a.arrayBuffer()).slice(0, 4)))]), (w) => done([0, String(w)]))",
            each)
        equal((found[0], base64.b64decode(found[1])), (200, b"PK\x03\x04"), f"{each}: a workbook")


def shop(given, name):
    book = harness.new_book(given.program, name)
    harness.run(given.program, "owner", "in", "5000", "--purse", "cash", book=book)
    harness.run(given.program, "appraise", os.path.join(harness.samples(), "sprat", "job.toml"), "--keep", book=book)
    return book


def main():
    given = harness.begin(__doc__)
    book, other = shop(given, "page.book"), shop(given, "commands.book")
    house = harness.House(given.program, book)
    phone = harness.Phone(house)
    by_page(phone, given, book)

    entries = harness.figures(given.program, book, "entries")["entries"]
    day = entries[-1]["date"]
    paper = [each["entry"] for each in harness.figures(given.program, book, "entries")["entries"]
             if each["kind"] == "receipt"][-1]
    events = os.path.join(harness.folder, "same.toml")
    text = EVENTS.format(day=day, test=TEST, outcome=OUTCOME, core="R9.1").replace('"R9.1"', '"P1"').replace(
        '{ what = "coolant pump with gasket", qty', '{ id = "P1", what = "coolant pump with gasket", qty')
    expect(paper, "a paper is in the book")
    with open(events, "w", encoding="utf-8") as file:
        file.write(text)
    harness.run(given.program, "post", events, book=other)
    for words in (["show", "sprat"], ["vehicles"], ["purses"], ["due"], ["tray"]):
        mine, theirs = (harness.figures(given.program, each, *words) for each in (book, other))
        equal(harness.differences(without_numbers(mine), without_numbers(theirs)), [],
              " ".join(words) + ": by page beside by commands")
    for each in (book, other):
        equal(harness.figures(given.program, each, "check")["sound"], True, "check finds the book sound")
    profit = harness.figures(given.program, book, "show", "sprat")
    phone.open("/report/sprat")
    cash = next(each["cash_profit"] for each in harness.figures(given.program, book, "vehicles")["vehicles"]
                if each["tag"] == "sprat") if profit else ""
    shown = phone.text("main").replace(",", "")
    expect(str(cash).lstrip("-") in shown, f"the report shows the cash profit {cash}")
    expect(phone.all("main svg"), "the report has a picture")
    workbooks(phone, "/report/sprat")
    workbooks(phone, "/year/" + day[:4])
    expect(not [each for each in phone.console() if "favicon" not in each], "the console is silent through the whole flow")
    print(f"the whole job by page: {phone.taps} taps, {phone.keys} keys; cash profit {cash}")
    phone.close()
    house.stop()
    harness.end()


def without_numbers(value):
    """Entries are numbered by how they came in: a quick line and its paper are one more than the paper alone."""
    if isinstance(value, dict):
        return {key: without_numbers(each) for key, each in value.items()
                if key not in ("entry", "entries", "line", "lines", "id", "itemised_by", "appraised_by")}
    if isinstance(value, list):
        return [without_numbers(each) for each in value]
    return value


if __name__ == "__main__":
    main()
