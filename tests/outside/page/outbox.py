#!/usr/bin/env python3
"""What was kept on a phone reaches the book once, whatever dies: the house, the tab, the browser, the cookie.

    outbox.py PROGRAM [--kills 10] [--tabs 2] [--browsers 1] [--seed N]

A phone at 192.168.77.1 (no secure context) where the program serves there, else at loopback. Every entry has a word of
its own and a photo of noise; in the end each word stands in the book once, each photo's SHA-256 is among the
attachments, and `check` finds the book sound.
"""
import base64
import hashlib
import json
import os
import random
import signal
import time

import harness
from harness import equal, expect

KEEP = r"""
const [word, car, amount, grain, done] = arguments;
(async () => {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = grain;
  const ground = canvas.getContext('2d');
  const noise = ground.createImageData(grain, grain);
  for (let at = 0; at < noise.data.length; ++at) noise.data[at] = at % 4 === 3 ? 255 : Math.random() * 256;
  ground.putImageData(noise, 0, 0);
  const photo = await new Promise((made) => canvas.toBlob(made, 'image/jpeg', 0.8));
  const id = freshId();
  const form = new URLSearchParams({do: 'receipt', vehicle: car, amount, what: word, purse: 'cash', kept: id, day: dayHere()});
  await hold(id, form.toString(), 'receipt ' + amount, photo, '/receipt', 0);
  send();
  const bytes = new Uint8Array(await photo.arrayBuffer());
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  done([id, btoa(text)]);
})().catch((wrong) => done(['', String(wrong)]));
"""


class Made:
    """What was kept, and what has to be found in the book."""

    def __init__(self, dice):
        self.dice, self.words, self.photos, self.ids = dice, [], [], []

    def keep(self, phone, car="pip"):
        word = f"word{len(self.words)}x{self.dice.randrange(10**6)}"
        amount = f"{self.dice.randrange(1, 90)}.{self.dice.randrange(100):02d}"
        kept, photo = phone.driver.execute_async_script(KEEP, word, car, amount, 96)
        if not expect(kept, f"{word} was not kept: {photo}"):
            return
        self.words.append(word)
        self.ids.append(kept)
        self.photos.append(hashlib.sha256(base64.b64decode(photo)).hexdigest())


def words_in(program, book):
    return harness.run(program, "entries", "--json", book=book)


def photos_in(book):
    found = set()
    folder, name = os.path.split(book)
    for root, _, files in os.walk(folder):
        if os.path.basename(root).startswith(name):
            found |= {each[:64] for each in files}
    return found


def settled(phone, seconds=90):
    phone.wait(lambda: phone.held() == 0, "everything on the device is in the book", seconds)


def compare(program, book, made, words):
    text = words_in(program, book)
    lost = [each for each in made.words if text.count(f'"{each}"') == 0]
    equal(lost, [], f"{words}: lost")
    events = json.loads(text)
    twice = [each for each in made.words if holding(events, each) > 1]
    equal(twice, [], f"{words}: twice in the book")
    there = photos_in(book)
    equal([each for each in made.photos if each not in there], [], f"{words}: photos that are not beside the book")
    equal(harness.figures(program, book, "check")["sound"], True, f"{words}: check finds the book sound")


def holding(events, word):
    entries = events["entries"] if isinstance(events, dict) else events
    return sum(1 for each in entries if f'"{word}"' in json.dumps(each))


def kills(given, dice):
    book = shop(given.program, "kills.book")
    house = harness.House(given.program, book)
    phone = harness.Phone(house)
    time.sleep(31)  # a browser writes a new cookie within 30 s; one that is killed before has lost it
    made = Made(dice)
    for at in range(given.kills):
        for _ in range(dice.randrange(1, 4)):
            made.keep(phone)
        second = None
        if at % 7 == 3:
            second = phone.driver.current_window_handle
            phone.driver.switch_to.new_window("tab")
            phone.open("/")
            phone.driver.switch_to.window(second)
        time.sleep(dice.random() * 0.35)
        house.kill()
        made.keep(phone)
        if given.tabs and at % max(1, given.kills // given.tabs) == 1:
            other = [each for each in phone.driver.window_handles if each != phone.driver.current_window_handle]
            house.start()
            if not other:
                phone.driver.switch_to.new_window("tab")
                other = [phone.driver.current_window_handle]
            else:
                phone.driver.close()
            phone.driver.switch_to.window(other[0])
            phone.open("/")
        elif given.browsers and at % max(1, given.kills // given.browsers) == given.kills // (2 * given.browsers):
            phone.kill()
            house.start()
            phone.open_browser()
            phone.open("/")
        else:
            house.start()
    settled(phone)
    compare(given.program, book, made, f"{given.kills} kills")
    left = [each for root, _, files in os.walk(os.path.dirname(book)) for each in files if ".upload" in each or each.endswith(".part")]
    equal(left, [], "half photos left beside the book")
    print(f"{given.kills} kills of the house, {given.tabs} of the tab, {given.browsers} of the browser: "
          f"{len(made.words)} kept, all in the book once")
    return phone, house, book, made


def shop(program, name):
    book = harness.new_book(program, name)
    harness.run(program, "owner", "in", "90000", "--purse", "cash", book=book)
    harness.run(program, "buy", "pip", "500", "--purse", "cash", book=book)
    harness.run(program, "buy", "wren", "700", "--purse", "cash", book=book)
    return book


def silence(phone, house, book, made, given):
    """The house takes the connection and says nothing: kept at once, said after 20 s, sent when it is back."""
    house.silent()
    began = time.time()
    made.keep(phone)
    expect(time.time() - began < 5, "silent house: kept at once")
    expect(phone.held() >= 1, "silent house: on the device")
    phone.wait(lambda: "not reached" in phone.text("p.held"), "silent house: 'the house is not reached'", 40)
    house.wake()
    settled(phone)
    compare(given.program, book, made, "silent house")


def cookie(phone, house, book, made, given):
    """Without its cookie the device keeps all, says 'pair again', and after that it goes."""
    phone.driver.delete_all_cookies()
    made.keep(phone)
    phone.wait(lambda: "paired again" in phone.text("p.held"), "cookie lost: 'paired again'", 30)
    expect(phone.held() >= 1, "cookie lost: the entry stays")
    house.fresh_code()
    phone.pair("kitchen phone again")
    settled(phone)
    compare(given.program, book, made, "cookie lost")


def two_tabs(phone, house, book, made, given):
    first = phone.driver.current_window_handle
    house.kill()
    for _ in range(3):
        made.keep(phone)
    house.start()
    phone.driver.switch_to.new_window("tab")
    phone.open("/")
    for _ in range(2):
        made.keep(phone)
    phone.driver.switch_to.window(first)
    made.keep(phone)
    settled(phone)
    compare(given.program, book, made, "two tabs")


def refused(phone, house, book, given):
    """One that cannot be: says why, holds back only its own car, is changed or thrown away with two taps."""
    house.kill()
    phone.driver.execute_async_script(r"""
        const done = arguments[0];
        (async () => {
          for (const [car, amount] of [['pip', 'much'], ['wren', '3.25'], ['pip', '4.50']]) {
            const id = freshId();
            await hold(id, new URLSearchParams({do: 'receipt', vehicle: car, amount, purse: 'cash', what: 'held ' + car + amount,
              kept: id, day: dayHere()}).toString(), 'receipt ' + amount + ' ' + car, null, '/receipt?car=' + car, 0);
          }
          done();
        })();""")
    house.start()
    phone.open("/device")
    phone.wait(lambda: "refused" in phone.text("#device"), "the refused one is told on the page of the device", 60)
    phone.wait(lambda: phone.held() == 2, "the other car's entry went through", 30)
    text = words_in(given.program, book)
    expect("held wren3.25" in text, "a refused entry holds back only its own car")
    expect("held pip4.50" not in text, "a refused entry holds back what comes after it for its car")
    phone.taps = 0
    phone.tap("Throw it away", "#device")
    phone.wait(lambda: "sure" in phone.text("#device"), "thrown away only when tapped twice")
    equal(phone.held(), 2, "one tap throws nothing away")
    phone.tap("Throw it away: sure", "#device")
    equal(phone.taps, 2, "taps to throw away")
    settled(phone)
    expect("held pip4.50" in words_in(given.program, book), "what waited behind a thrown away one goes")


def tapped_twice(phone, book, given):
    phone.open("/receipt?car=pip")
    field = phone.one("[name='amount']")
    field.send_keys("77.31")
    before = words_in(given.program, book).count("77.31")
    phone.driver.execute_script(
        "const form = arguments[0].form, button = form.querySelector('button:not([type=button])');"
        "button.click(); button.click(); form.requestSubmit(button);", field)
    time.sleep(1)
    settled(phone)
    entries = harness.figures(given.program, book, "entries")
    equal(holding(entries, "77.31") - before, 1, "tapped twice: entries")


def stale(phone, house, given, book):
    """The same id with other content is refused, with the same content it is there already."""
    told = phone.driver.execute_async_script(r"""
        const done = arguments[0];
        (async () => {
          const id = freshId(), states = [];
          for (const amount of ['5.10', '5.10', '5.20']) {
            const form = new URLSearchParams({do: 'receipt', vehicle: 'pip', amount, purse: 'cash', kept: id, day: dayHere()});
            states.push((await put('/entry/' + id, form.toString(), 'application/x-www-form-urlencoded', 20)).status);
          }
          done(states);
        })().catch((wrong) => done([String(wrong)]));""")
    equal(told, [201, 200, 409], "one id sent three times, the last with another amount")


HOLD = r"""
const done = arguments[arguments.length - 1], forms = [...arguments].slice(0, -1);
(async () => {
  const ids = [];
  for (const form of forms) {
    const id = freshId();
    await hold(id, new URLSearchParams({ ...form, kept: id, day: form.day || dayHere() }).toString(),
      `${form.do} ${form.amount || ''}`, null, '/receipt', 0);
    ids.push(id);
  }
  done(ids);
})().catch((wrong) => done(String(wrong)));
"""


def hold(phone, *forms):
    held = phone.driver.execute_async_script(HOLD, *forms)
    expect(isinstance(held, list), f"kept on the device: {held}")


def now(phone):
    phone.driver.execute_script("pause = 0; send()")


def while_away(phone, house, book, given):
    """What changed in the book meanwhile: its period was closed, a car was sold. What was kept is taken: on the first open day,
    as a late paper; what cannot be says why and is changed or thrown away."""
    house.kill()
    hold(phone, {"do": "receipt", "vehicle": "pip", "amount": "21.01", "what": "late one", "purse": "cash", "day": "2025-03-04"},
         {"do": "receipt", "vehicle": "drake", "amount": "22.02", "what": "for a sold one", "purse": "cash"},
         {"do": "advertised", "vehicle": "drake", "price": "900", "what": ""},
         {"do": "receipt", "vehicle": "wren", "amount": "23.03", "what": "not behind it", "purse": "cash"})
    harness.run(given.program, "close", "2025-12-31", book=book)
    harness.run(given.program, "buy", "drake", "300", "--purse", "cash", book=book)
    harness.run(given.program, "sell", "drake", "800", "--purse", "cash", book=book)
    house.start()
    phone.open("/device")
    now(phone)
    phone.wait(lambda: phone.held() == 1 and "refused" in phone.text("#device"), "what cannot be is refused, all else is in the book", 40)
    expect("drake" in phone.text("#device") and "sold" in phone.text("#device"), f"why: {phone.text('#device')}")
    entries = harness.figures(given.program, book, "entries")
    entries = entries["entries"] if isinstance(entries, dict) else entries
    of = {what: next((each for each in entries if what in json.dumps(each)), None) for what in ("late one", "for a sold one", "not behind it")}
    for what, entry in of.items():
        expect(entry, f"'{what}' is in the book")
    if of["late one"]:
        equal(of["late one"]["date"], "2026-01-01", "what was kept in a period that is closed counts from its first open day on")
    phone.tap("Throw it away", "#device")
    phone.tap("Throw it away: sure", "#device")
    settled(phone)
    if of["late one"]:
        phone.open(f"/correct/{of['late one']['entry']}")
        equal(phone.one("[name=date]").get_attribute("value"), "2025-03-04", "and it keeps the day on which it was")


WRONG_CLOCK = r"""
{
  const by = %d, Right = Date;
  Date = class extends Right {
    constructor(...given) { given.length ? super(...given) : super(Right.now() + by); }
    static now() { return Right.now() + by; }
  };
}
"""


def wrong_clock(phone, house, book, given):
    """A phone that is some days ahead: asked which clock is right before anything goes, and the answer is what counts."""
    days = 40
    made = phone.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": WRONG_CLOCK % (days * 86400000)})
    phone.open("/receipt?car=wren")
    phone.type("amount", "31.13")
    phone.tap("Keep")
    phone.wait(lambda: "say which is right" in phone.text("p.held"), "asked about the clock", 20)
    expect("31.13" not in words_in(given.program, book), "before that is said nothing goes")
    phone.go("Say which", "p.held")
    phone.tap("The house is right")
    settled(phone)
    entries = json.loads(words_in(given.program, book))
    entries = entries["entries"] if isinstance(entries, dict) else entries
    entry = next(each for each in entries if "31.13" in json.dumps(each))
    equal(entry["date"], time.strftime("%Y-%m-%d"), "the day by the clock of the house")
    # Sent once more, as to a book that was restored from an older copy: its day is not moved once more.
    phone.driver.execute_async_script(
        "const done = arguments[0]; read('sent', (all) => all.getAll()).then((all) => takeBack(all.filter("
        "(each) => each.form.includes('31.13')))).then(() => done(), done)")
    equal(phone.held(), 1, "what was sent is in the outbox again")
    now(phone)
    settled(phone)
    equal(holding(json.loads(words_in(given.program, book)), "31.13"), 1, "sent once more: entries")
    phone.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", made)
    phone.open("/")


def past_midnight(phone, house, book, given):
    """On the phone it is past midnight and in the house not yet: what was kept waits, and has the phone's day."""
    house.stop()
    os.environ["TZ"] = f"HSE{time.gmtime().tm_hour + 1}"
    house.start()
    del os.environ["TZ"]
    phone.open("/receipt?car=wren")
    phone.type("amount", "32.14")
    phone.tap("Keep")
    phone.wait(lambda: "still the day before" in phone.text("p.held"), "said: in the house it is still the day before", 20)
    expect("32.14" not in words_in(given.program, book), "what has a day that has not come in the house waits")
    house.stop()
    house.start()
    now(phone)
    settled(phone)
    entries = json.loads(words_in(given.program, book))
    entries = entries["entries"] if isinstance(entries, dict) else entries
    entry = next(each for each in entries if "32.14" in json.dumps(each))
    equal(entry["date"], phone.driver.execute_script("return dayHere()"), "the day of the phone")


def as_a_file(phone, house, book, made, given):
    """What is held goes as a file to another device that is paired, its photo too, and is in the book once."""
    house.kill()
    made.keep(phone)
    saved = phone.driver.execute_async_script(r"""
        const done = arguments[0], script = document.createElement('script');
        URL.createObjectURL = (blob) => { blob.text().then(done); return '#'; };
        if (window.showDevice) saveAsFile();
        else { script.src = '/device.js'; script.onload = () => saveAsFile(); document.head.append(script); }""")
    file = os.path.join(harness.folder, "outbox.json")
    with open(file, "w", encoding="utf-8") as out:
        out.write(saved)
    kept = json.loads(saved)["entries"]
    equal(len(kept), 1, "entries in the file")
    equal(kept[0]["from"], "/receipt", "where it was kept stands in the file")
    damaged = {**kept[0], "id": "0" * 32, "words": "receipt 9.99", "photo": {"type": "image/jpeg", "bytes": "no picture"}}
    for name, second in (("null", None), ("photo", damaged)):
        with open(f"{file}.{name}", "w", encoding="utf-8") as out:
            json.dump({**json.loads(saved), "entries": [*kept, second]}, out)
    house.start()
    house.fresh_code()
    laptop = harness.Phone(house, size=harness.TABLE, paired=False)
    # Its own clock is 40 days ahead: what another device kept is not judged by that.
    laptop.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": WRONG_CLOCK % (40 * 86400000)})
    laptop.pair("laptop")
    laptop.open("/device")
    laptop.tap("As a file")
    with open(file + ".txt", "w", encoding="utf-8") as out:
        out.write("no such thing")
    for name, words in ((file + ".txt", "it is no file of kept entries"), (file + ".photo", "the photo of receipt 9.99 is damaged"),
                        (file + ".null", "it is no file of kept entries"), (file, "1 taken in.")):
        equal(laptop.held(), 0, f"on the laptop before {name}")
        laptop.one("#device-file").send_keys(name)
        laptop.wait(lambda words=words: words in laptop.text("#device-taken"), words)
    settled(laptop)
    entries = json.loads(words_in(given.program, book))
    entries = entries["entries"] if isinstance(entries, dict) else entries
    equal([each["date"] for each in entries if f'"{made.words[-1]}"' in json.dumps(each)], [time.strftime("%Y-%m-%d")],
          "the day on which another device kept it")
    laptop.close()
    phone.open("/device")
    now(phone)
    settled(phone)
    compare(given.program, book, made, "as a file")


def two_clocks(phone, house, book, given):
    """A clock on the phone while the house's own runs: it becomes hours with the phone's day, taken, and the tray says so."""
    phone.open("/hours?car=pip")
    phone.tap("Clock on")
    phone.wait(lambda: phone.all("time[data-since]"), "the clock of the house runs")
    house.kill()
    phone.tap("Keep", "form:has([value='clock off'])")
    phone.wait(lambda: "switch it off once it is" in phone.text("form .refused"), "the clock of the house goes off in the house", 30)
    phone.driver.execute_async_script(
        "const done = arguments[0]; setNote('clock', {vehicle: 'wren', operation: 'strip', since: Date.now() - 5400000})"
        ".then(showHeld).then(done)")
    # Tapped twice, and in another tab that shows it still: its hours are kept once.
    first = phone.driver.current_window_handle
    phone.driver.switch_to.new_window("tab")
    phone.open("/device")
    phone.driver.switch_to.window(first)
    phone.driver.execute_async_script("const done = arguments[0]; Promise.all([clockOff(), clockOff()]).then(done, done)")
    phone.wait(lambda: phone.held() == 1, "the phone's clock is hours on the device", 30)
    other = next(each for each in phone.driver.window_handles if each != first)
    phone.driver.switch_to.window(other)
    phone.driver.execute_async_script("const done = arguments[0]; clockOff().then(done, done)")
    equal(phone.held(), 1, "hours of a clock that was switched off three times")
    phone.driver.close()
    phone.driver.switch_to.window(first)
    house.start()
    now(phone)
    settled(phone)
    phone.open("/tray")
    expect("meanwhile came" in phone.text(), f"the tray says that two clocks ran: {phone.text()[:600]}")
    expect("strip" in phone.text() and "wren" in phone.text(), "and of which car its hours are")
    phone.open("/hours")
    phone.go("Keep", "form:has([value='clock off'])")


def proof(phone):
    """The page's own HMAC-SHA-256 against published vectors: RFC 4231, test cases 1, 2, 3 and 6; FIPS 180-4's 'abc'."""
    told = phone.driver.execute_script(r"""
        const text = (words) => new TextEncoder().encode(words), filled = (n, byte) => new Uint8Array(n).fill(byte);
        return [toHex(hmacSha256(filled(20, 0x0b), text('Hi There'))),
          toHex(hmacSha256(text('Jefe'), text('what do ya want for nothing?'))),
          toHex(hmacSha256(filled(20, 0xaa), filled(50, 0xdd))),
          toHex(hmacSha256(filled(131, 0xaa), text('Test Using Larger Than Block-Size Key - Hash Key First'))),
          toHex(sha256(text('abc')))];""")
    equal(told, ["b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
                 "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
                 "773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe",
                 "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54",
                 "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"], "the page's HMAC-SHA-256")


def main():
    given = harness.begin(__doc__, ("--kills", int, 10, "of the house"), ("--tabs", int, 2, "tabs closed"),
                          ("--browsers", int, 1, "of the browser"), ("--seed", int, 0, ""))
    seed = given.seed or random.randrange(1 << 30)
    print(f"seed {seed}")
    dice = random.Random(seed)
    phone, house, book, made = kills(given, dice)
    silence(phone, house, book, made, given)
    two_tabs(phone, house, book, made, given)
    stale(phone, house, given, book)
    proof(phone)
    refused(phone, house, book, given)
    tapped_twice(phone, book, given)
    while_away(phone, house, book, given)
    wrong_clock(phone, house, book, given)
    past_midnight(phone, house, book, given)
    as_a_file(phone, house, book, made, given)
    two_clocks(phone, house, book, given)
    cookie(phone, house, book, made, given)
    equal(house.stop(signal.SIGTERM), 0, "the house ends with status")
    phone.close()
    harness.end()


if __name__ == "__main__":
    main()
