#!/usr/bin/env python3
"""Away from home: what opens with the house down, what is kept there, what is said before the seller.

    away.py PROGRAM

Once on this machine's own address (a secure context: with a worker, so that a reload works too) and once at 192.168.77.1
over http (none: as a phone in the shop's network).
"""
import time

import harness
import outbox
from harness import equal, expect


def ways(phone, house, reload):
    """Each way in which a page is opened again, with the house down."""
    phone.driver.get("about:blank")
    phone.open("/away")
    expect("As of" in phone.text("#away-as-of"), f"{house.at}: typed, the page of away opens with the house down")
    first = phone.driver.current_window_handle
    phone.driver.switch_to.new_window("tab")
    phone.open("/away")
    expect(phone.all("#away-room form"), f"{house.at}: a new tab opens it")
    phone.driver.close()
    phone.driver.switch_to.window(first)
    phone.open("/device")
    phone.driver.execute_script("document.querySelector('nav a[href=\"/away\"]').click()")
    phone.wait(lambda: "/away" in phone.driver.current_url and phone.all("#away-room form"), f"{house.at}: a link opens it")
    if reload:
        phone.driver.refresh()
        phone.wait(lambda: phone.all("#away-room form"), f"{house.at}: a reload opens it")


def kept_there(phone, house, book, given):
    """A receipt is kept in half a second, and the next can be begun."""
    phone.open("/away")
    phone.wait(lambda: phone.one("select[name=vehicle]").find_elements(harness.By.TAG_NAME, "option"), "cars to choose from")
    lists = phone.driver.execute_async_script("const done = arguments[0]; note('lists').then(done)")
    for name, likely in (("vehicle", lists["car"]), ("purse", lists["purse"])):
        field = phone.one(f"#away-room > form select[name={name}]")
        equal(field.get_attribute("value"), likely, f"{house.at}: the likeliest {name} is chosen")
    before = phone.held()
    for amount in ("11.07", "12.08"):
        phone.type("amount", amount)
        began = time.time()
        phone.tap("Keep", "#away-room > form")
        phone.wait(lambda: phone.one("[name=amount]").get_attribute("value") == "", "the form is free again")
        took = time.time() - began
        expect(took < 0.5, f"{house.at}: kept in {took:.2f} s, at most 0.5 expected")
    equal(phone.held() - before, 2, f"{house.at}: kept on the device with the house down")


def before_the_seller(phone, given, book):
    """The answers that were taken along are those of the command, in the states that the taps lead to."""
    phone.open("/away")
    phone.tap("wren: before its seller")
    job = harness.figures(given.program, book, "appraise", "wren")
    tests = job["tests"] if "tests" in job else []
    names = [each["name"] for each in tests]
    for name in names[:2]:
        part = next(each for each in phone.all("#away-cars h3") if name in each.text)
        button = part.find_element(harness.By.XPATH, "following-sibling::div[1]").find_element(harness.By.TAG_NAME, "button")
        said = button.text
        phone.tap(button)
        seen = harness.figures(given.program, book, "appraise", "wren", "--seen", f"{name}={said.lstrip('✓ ')}")
        verdict = phone.text("#away-cars .fixed strong")
        expect(verdict.lower() == str(seen["verdict"]).lower(), f"{name}={said}: away it says {verdict}, at home {seen['verdict']}")
        phone.tap(part.find_element(harness.By.XPATH, "following-sibling::div[1]").find_element(harness.By.TAG_NAME, "button"))


def one(given, name, options, address, reload):
    book = harness.book_of(given.program, name)
    house = harness.House(given.program, book, *options, address=address)
    phone = harness.Phone(house)
    phone.open("/device")
    expect(("a reload included" if reload else "do not reload") in
           phone.wait(lambda: phone.text("#away"), "what of it opens away from home"), f"{house.at}: {phone.text('#away')}")
    phone.open("/away")
    phone.tap("Take wren along")
    phone.wait(lambda: "anew" in phone.text("#away-cars"), "wren is taken along", 60)
    phone.open("/device")
    time.sleep(1)
    house.kill()
    ways(phone, house, reload)
    kept_there(phone, house, book, given)
    before_the_seller(phone, given, book)
    house.start()
    phone.open("/")
    phone.wait(lambda: phone.held() == 0, "what was kept away is in the book", 60)
    text = outbox.words_in(given.program, book)
    for amount in ("11.07", "12.08"):
        expect(amount in text, f"{house.at}: {amount} is in the book")
    phone.close()
    house.stop()


def main():
    given = harness.begin(__doc__)
    one(given, "here.book", [], "127.0.0.1", True)
    one(given, "lan.book", ["--lan", harness.LAN, "--plain"], harness.LAN, False)
    harness.end()


if __name__ == "__main__":
    main()
