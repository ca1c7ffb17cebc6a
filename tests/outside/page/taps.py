#!/usr/bin/env python3
"""How often a hand has to tap, beside how often it may.

    taps.py PROGRAM

On a phone of 360 x 740, from the page of the cars. A tap is one touch, a digit one key; choosing in a list of the
browser's is two. The camera's own taps are the camera's. The numbers are this page's own promises; no source.
"""
import os
import struct
import zlib

import harness
from harness import equal, expect


def photo():
    """A picture of 2,400 x 1,600, as PNG, in a file."""
    path = os.path.join(harness.folder, "photo.png")
    rows = b"".join(b"\0" + bytes((x * y) % 256 for x in range(2400)) for y in range(1600))
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    with open(path, "wb") as file:
        file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 2400, 1600, 8, 0, 0, 0, 0)) +
                   chunk(b"IDAT", zlib.compress(rows, 1)) + chunk(b"IEND", b""))
    return path


def counted(phone, words, taps, keys=0):
    expect(phone.taps <= taps and phone.keys <= max(keys, 0) or phone.taps + phone.keys <= taps + keys,
           f"{words}: {phone.taps} taps and {phone.keys} keys, at most {taps} and {keys} expected")
    print(f"{words}: {phone.taps} taps, {phone.keys} keys (at most {taps}, {keys})")


def start(phone, path="/"):
    phone.open(path)
    phone.taps = phone.keys = 0


def quick_receipt(phone, book, given):
    """Receipt, photo, amount, keep: the car is chosen, the cursor stands in the amount."""
    start(phone)
    phone.go("Receipt", "nav")
    field = phone.one("input[data-photo]")
    phone.taps += 1
    field.send_keys(photo())
    phone.wait(lambda: phone.driver.switch_to.active_element.get_attribute("name") == "amount",
               "after the photo the cursor stands in the amount")
    phone.type(None, "61.37")
    phone.go("Keep")
    counted(phone, "quick receipt", 5, 5)
    phone.wait(lambda: phone.held() == 0, "the receipt and its photo are in the book")
    expect("61.37" in harness.run(given.program, "tray", book=book), "the quick receipt waits in the tray")
    photos = [each for root, _, files in os.walk(os.path.dirname(book)) for each in files if len(each) >= 64]
    equal(len(photos), 1, "photos beside the book")
    return [os.path.join(root, each) for root, _, files in os.walk(os.path.dirname(book)) for each in files
            if len(each) >= 64][0]


def small_photo(path):
    """As it was kept: JPEG, 1,800 px on its longer side, without marks of the camera."""
    with open(path, "rb") as file:
        data = file.read()
    equal(data[:3], b"\xff\xd8\xff", "the photo beside the book begins as a JPEG does")
    expect(b"Exif" not in data[:4096], "the photo beside the book has no marks of a camera")
    at = 2
    while at < len(data):
        kind, length = data[at + 1], struct.unpack(">H", data[at + 2:at + 4])[0]
        if 0xC0 <= kind <= 0xC3:
            height, width = struct.unpack(">HH", data[at + 5:at + 9])
            equal((width, height), (1800, 1200), "the photo beside the book, its size")
            return
        at += 2 + length
    expect(False, "the photo beside the book has no size")


def clock(phone, book, given):
    start(phone)
    phone.go("Hours", "nav")
    phone.go("Clock on")
    counted(phone, "clock on", 2)
    start(phone)
    phone.go("Off")
    operations = phone.all("form input[type=radio][name=operation]")
    if operations:
        phone.tap(operations[-1].find_element(harness.By.XPATH, "ancestor::label"))
    phone.go("Keep")
    counted(phone, "clock off, with the operation", 3)


def brought_back(phone, book, given):
    start(phone)
    phone.go("Due", "nav")
    phone.tap(next(each for each in phone.all("summary") if "alternator" in each.text))
    phone.go("Brought back")
    counted(phone, "brought back", 3)
    expect("alternator" not in harness.run(given.program, "due", book=book), "brought back: no longer due")


def outcome(phone):
    start(phone, "/seller/drake")
    phone.go(next(each for each in phone.all("#tests a") if each.is_displayed()))
    counted(phone, "an outcome at the seller's", 1)


def sold(phone, book, given):
    start(phone, "/sell/pip")
    form = next(each for each in phone.all("main form") if each.text.rstrip().endswith("Sold"))
    phone.tap(form.find_element(harness.By.CSS_SELECTOR, "[name=price]"))
    phone.type(None, "1450")
    purse = form.find_element(harness.By.CSS_SELECTOR, "select[name=purse]")
    if not purse.get_attribute("value"):  # nothing says yet through which purse: a list, two taps
        phone.taps += 2
        phone.driver.execute_script("arguments[0].value = 'cash'", purse)
    phone.go("Sold")
    counted(phone, "sold", 4, 4)  # one of the taps puts the cursor into the price
    said = harness.run(given.program, "show", "pip", book=book).splitlines()[0]
    expect("sold" in said, f"sold: the car is sold, not '{said}'; the page says: {phone.driver.current_url} {phone.text()[:300]}")


def main():
    given = harness.begin(__doc__)
    book = harness.book_of(given.program)
    paper = os.path.join(harness.folder, "core.toml")
    with open(paper, "w", encoding="utf-8") as file:
        file.write('event = [ { do = "receipt", date = 2026-03-06, supplier = "Millgate Parts", paid = { cash = 80.00 }, '
                   'total = 80.00, line = [ { what = "alternator", qty = 1, unit = 60.00, core = 20.00, to = "pip", '
                   'kind = "part", source = "reman" } ] } ]\n')
    harness.run(given.program, "post", paper, book=book)
    house = harness.House(given.program, book)
    phone = harness.Phone(house)
    kept = quick_receipt(phone, book, given)
    small_photo(kept)
    clock(phone, book, given)
    brought_back(phone, book, given)
    outcome(phone)
    sold(phone, book, given)
    phone.close()
    house.stop()
    harness.end()


if __name__ == "__main__":
    main()
