#!/usr/bin/env python3
"""Away from home: what opens with the house down, what is kept there, what is said before the seller.

    away.py PROGRAM

Once at 192.168.77.1 over http (no secure context: as a phone in the shop's network), once there by TLS with the shop's own
authority in the browser's store (a secure context: with a worker, so that a reload works too). In each the house's address
then belongs to somebody else: nothing of what is kept goes there.
"""
import contextlib
import http.server
import os
import ssl
import subprocess
import sys
import threading
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
import harness  # noqa: E402
import outbox  # noqa: E402
import pace  # noqa: E402
from harness import equal, expect  # noqa: E402


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
    phone.close()
    phone.open_browser()
    phone.open("/away")
    expect(phone.wait(lambda: phone.all("#away-room form"), "the page"), f"{house.at}: after a restart of the browser it opens")


def kept_there(phone, house):
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
        took = (time.time() - began) / pace.slower(time.time)
        expect(took < 0.5, f"{house.at}: kept in {took:.2f} s as on a machine that is named, at most 0.5 expected")
    equal(phone.held() - before, 2, f"{house.at}: kept on the device with the house down")


def inside(phone, fold, css):
    """The first thing shown of a folded part that is open: of a car, or of what is to be bought."""
    def found():
        top = phone.driver.execute_script(
            "return [...document.querySelectorAll('#away-room section > details')].find((each) => "
            "each.querySelector('summary').textContent.startsWith(arguments[0]))", fold)
        return next((each for each in top.find_elements(harness.By.CSS_SELECTOR, css) if each.is_displayed()), None)
    return phone.wait(found, f"{fold}: {css}")


def decided_there(phone, house):
    """With the house down: a test tapped and a price asked before the seller of one car, which is left; another is bought; a part
    of the shopping list is."""
    phone.open("/away")
    held = phone.held()
    phone.tap("sprat: before its seller", "#away-cars")
    phone.tap(inside(phone, "sprat", ".choices button"))
    phone.wait(lambda: inside(phone, "sprat", ".choices button").get_attribute("aria-pressed") == "true", f"{house.at}: the outcome is tapped")
    inside(phone, "sprat", "label input").send_keys("850")
    phone.wait(lambda: "At 850:" in phone.text("#away-cars"), f"{house.at}: what to do at 850")
    phone.tap("Left", "#away-cars")
    inside(phone, "sprat", "[name=why]").send_keys("rot under the sill")
    phone.tap("Left it", "#away-cars")
    phone.wait(lambda: phone.held() == held + 1, f"{house.at}: left, on the device")
    phone.open("/away")
    phone.tap("drayman: before its seller", "#away-cars")
    phone.tap(next(each for each in phone.all("#away-cars summary") if each.is_displayed() and each.text.strip() == "Bought"))
    inside(phone, "drayman", "[name=price]").send_keys("1850")
    phone.tap(inside(phone, "drayman", "form button"))
    phone.wait(lambda: phone.held() == held + 2, f"{house.at}: bought, on the device")
    phone.open("/away")
    phone.tap("coolant pump, pip", "#away-shopping")
    phone.tap(inside(phone, "coolant pump, pip", "form button"))
    phone.wait(lambda: phone.held() == held + 3, f"{house.at}: a part of the shopping list, on the device")


def worked_there(phone, house):
    """With the house down: the clock of the device on and off, hours after work, a core, goods and a tool's deposit brought
    back, each once."""
    phone.open("/away")
    held = phone.held()
    phone.tap("Clock on", "#away-clock")
    phone.wait(lambda: "the clock of this device runs" in phone.text("#away-clock"), f"{house.at}: the clock runs on the device")
    # Left on for 13 hours: it goes off by nobody's hours but those that are said.
    phone.driver.execute_async_script(
        "const done = arguments[0]; note('clock').then((clock) => setNote('clock', {...clock, since: clock.since - 13 * 3600000}))"
        ".then(showHeld).then(done)")
    phone.wait(lambda: "How long was it really?" in phone.text("#away-clock"), f"{house.at}: a forgotten clock is asked about")
    phone.driver.execute_async_script("const done = arguments[0]; clockOff().then(done, done)")
    phone.ready()
    phone.wait(lambda: "How long was it really?" in phone.text("#away-clock"), f"{house.at}: also from the line of every page")
    equal(phone.held(), held, f"{house.at}: 13 hours are kept by nobody's word")
    phone.choose("operation", "coolant pump")
    phone.type(phone.one("#away-clock [name=own]"), "1:30")
    phone.tap("Keep, done", "#away-clock")
    phone.wait(lambda: phone.held() == held + 1, f"{house.at}: the clock is hours on the device")
    equal(phone.driver.execute_async_script("const done = arguments[0]; heldEntries().then((all) => done(all.at(-1).from))"), "/away",
          f"{house.at}: where these hours are changed, with the house down too")
    phone.wait(lambda: phone.button("Clock on", "#away-clock"), f"{house.at}: the clock can go on again")
    phone.tap("Hours after work", "#away-hours")
    phone.type(phone.one("#away-hours [name=own]:not(#away-clock *)"), "2,5")
    phone.type(phone.one("#away-hours input[name=operation]"), "brakes")
    phone.tap("Keep", "#away-hours > details form")
    phone.wait(lambda: phone.held() == held + 2, f"{house.at}: hours after work, on the device")
    for n, (says, button) in enumerate((("core of starter", "Brought back"), ("deposit on puller", "Brought back"), ("hose, ", "Went back"))):
        fold = phone.wait(lambda says=says: next((each for each in phone.all("#away-due summary") if says in each.text), None), says)
        phone.tap(fold)
        phone.tap(button, "#away-due details[open]:has(form:not([hidden]))")
        phone.wait(lambda n=n: phone.held() == held + 3 + n, f"{house.at}: {says}, on the device")
        phone.wait(lambda fold=fold: "kept on this device" in fold.text, f"{house.at}: {says} is said to be kept")
        expect(not phone.all("#away-due details[open] form:not([hidden])"), f"{house.at}: {says} is not offered once more")


def worked_in_the_book(house, given, book):
    entries = harness.figures(given.program, book, "entries")["entries"]
    said = [(each["kind"], each["what"]) for each in entries]
    for kind, words in (("hours", "coolant pump"), ("hours", "brakes"), ("core back", "starter"), ("tool deposit back", "puller"), ("return", "hose")):
        equal(len([what for each, what in said if each == kind and words in what]), 1, f"{house.at}: {kind} with {words} in {said}")
    pip = harness.figures(given.program, book, "show", "pip")
    equal(float(pip["own_hours"]), 4.0, f"{house.at}: 1:30 and 2,5 hours")


def decided_in_the_book(house, given, book):
    entries = harness.figures(given.program, book, "entries")["entries"]
    kinds = [(each["kind"], each["what"]) for each in entries]
    expect(any(kind == "pass" and "sprat" in what and "rot under the sill" in what for kind, what in kinds), f"{house.at}: sprat was left: {kinds}")
    expect(any(kind == "finding" and "sprat" in what for kind, what in kinds), f"{house.at}: with what its test has shown: {kinds}")
    expect(any(kind == "buy" and "drayman" in what for kind, what in kinds), f"{house.at}: drayman was bought: {kinds}")
    expect(any(kind == "receipt" and "coolant pump" in what for kind, what in kinds), f"{house.at}: the pump is a quick line: {kinds}")


# What the page of away shows of a car in every state that was taken along, at these prices: drawn by the page's own script.
EVERY_STATE = r"""
const [tag, done] = arguments;
(async () => {
  const lists = await note('lists'), along = await note('along ' + tag), shown = {};
  for (const [key, state] of Object.entries(along.states)) {
    const seen = Object.fromEntries(key.split(',').filter(Boolean).map((pair) => pair.split(':').map(Number)));
    const section = showCar(along, lists, { [tag]: seen });
    const price = section.querySelector('label input'), said = {};
    const rows = state.at_prices;
    const ends = rows.flatMap(({ up_to }) => up_to === null ? [] : [up_to, String(Number(up_to) + 1)]);
    for (const asked of [...ends, '0', '999999']) {
      price.value = asked;
      price.dispatchEvent(new Event('input'));
      said[asked] = section.querySelector('[role=status]').textContent;
    }
    shown[key] = { verdict: section.querySelector('.verdict').textContent, says: section.querySelector('.fixed').textContent, said };
  }
  done({ shown, along });
})().catch((wrong) => done(String(wrong)));
"""


def every_state(phone, given, book, cars):
    """In every state the page says what `appraise --seen` says: the verdict, what may be paid at most, up to where tests pay,
    and which test is next. At prices around those at which the answer changes it says what the house said of them; that the
    house says of them what an appraisal at that price says is tests/answers/take_along.cpp."""
    for tag in cars:
        found = phone.driver.execute_async_script(EVERY_STATE, tag)
        expect(isinstance(found, dict), f"{tag}: {found}")
        shown, along = found["shown"], found["along"]
        equal(len(shown), along["all"], f"{tag}: states on the phone")
        for key, here in shown.items():
            state = along["states"][key]
            seen = [words for test, outcome in (pair.split(":") for pair in key.split(",") if pair)
                    for words in ("--seen", f"{along['tests'][int(test) - 1]['name']}={along['tests'][int(test) - 1]['outcomes'][int(outcome) - 1]}")]
            home = harness.figures(given.program, book, "appraise", tag, *seen)
            where = f"{tag}, {key or 'nothing seen'}"
            equal(here["verdict"].lower(), home["verdict"], f"{where}: verdict")
            limit = home["walk_away"]["price"]
            equal(state["walk_away"], None if float(limit) < 0 else limit, f"{where}: W")
            most = home["with_tests_price"]
            equal(state["with_tests"], None if float(most) < 0 else most, f"{where}: X")
            names = [test["name"] for test in along["tests"]]
            equal(state["next_test"] and names[state["next_test"] - 1], home["next_test"] and home["next_test"]["test"], f"{where}: next test")
            words = "not unseen, even as a gift" if state["walk_away"] is None else f"never pay more than {float(state['walk_away']):,.2f}"
            expect(words in here["says"], f"{where}: '{words}' in {here['says']}")
            expect(state["next"] in here["says"], f"{where}: {here['says']}")
            for asked, said in here["said"].items():
                row = next(row for row in state["at_prices"] if row["up_to"] is None or float(asked) <= float(row["up_to"]))
                equal(said, f"At {asked}: {row['says']}.", f"{where}, asked {asked}")


class FalseHouse:
    """Another machine at the address of the house: answers everything with "yes", and writes down what it was asked."""

    def __init__(self, house, own_certificate=None):
        asked = self.asked = []

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_GET(self):
                asked.append((self.command, self.path, self.headers.get("Cookie")))
                self.rfile.read(int(self.headers.get("Content-Length") or 0))
                body = b'{"proof": "' + b"0" * 64 + b'", "missing": [], "state": "in the book", "entry": 1, "message": ""}'
                self.send_response(201 if self.command == "PUT" else 200)
                self.send_header("Content-Type", "application/json")
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)
            do_PUT = do_POST = do_HEAD = do_GET

            def log_message(self, *_):
                pass

        self.server = http.server.ThreadingHTTPServer((house.address, house.port), Handler)
        self.server.daemon_threads = True
        if own_certificate:
            context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
            context.load_cert_chain(own_certificate)
            self.server.socket = context.wrap_socket(self.server.socket, server_side=True)
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def end(self):
        self.server.shutdown()
        self.server.server_close()


def certificate_of_its_own():
    file = os.path.join(harness.folder, "false.pem")
    subprocess.run(["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "3",
                    "-subj", "/CN=house", "-addext", "subjectAltName=IP:" + harness.LAN, "-keyout", file + ".key", "-out", file + ".crt"],
                   check=True, capture_output=True)
    with open(file, "w", encoding="ascii") as whole:
        for part in (".key", ".crt"):
            with open(file + part, encoding="ascii") as one:
                whole.write(one.read())
    return file


def false_house(phone, house, given_certificate):
    """On another network another machine may have the house's address: it learns nothing of what is kept, and no cookie."""
    phone.open("/away")
    phone.wait(lambda: phone.all("#away-room form"), "the page of away")
    other = FalseHouse(house, given_certificate)
    held = phone.held()
    phone.type("amount", "13.09")
    phone.tap("Keep", "#away-room > form")
    phone.wait(lambda: phone.held() == held + 1, "kept beside a false house")
    words = "not reached" if given_certificate else "nother machine stands at the address"
    phone.driver.execute_script("pause = 0; send()")
    phone.wait(lambda: words in phone.text("p.held"), f"{house.at}, a false house: '{words}'", 40)
    # What opens away is renewed only for a house that proved itself, though nothing would wait.
    phone.driver.execute_async_script(
        "const done = arguments[0]; provenAt = 0; reached = ''; dropNote('renewed').then(renewAway).then(() => done(), done)")
    time.sleep(1)
    equal(phone.held(), held + 1, f"{house.at}, a false house: everything stays on the device")
    equal([each for each in other.asked if not each[1].startswith("/proof?") or each[2]], [],
          f"{house.at}: what a false house was asked beside its proof, or with the cookie")
    expect(given_certificate or other.asked, f"{house.at}: the false house was asked for its proof")
    other.end()


def older_answers(phone, tag):
    """What an older program took along has no answer at every price: the car is offered to be taken along anew, and the rest of
    the page is there."""
    along = phone.driver.execute_async_script(
        "const [tag, done] = arguments; (async () => { const along = await note('along ' + tag), older = structuredClone(along);"
        "for (const state of Object.values(older.states)) delete state.at_prices;"
        "await setNote('along ' + tag, older); return along; })().then(done)", tag)
    phone.console()
    phone.open("/away")
    phone.wait(lambda: f"Take {tag} along anew" in phone.text("#away-cars"), f"{tag} of an older program: taken along anew")
    expect(f"{tag}: before its seller" not in phone.text("#away-cars"), f"{tag} of an older program: no answers without prices")
    expect(f"{CARS[1]}: before its seller" in phone.text("#away-cars"), "the other cars are there")
    # Over http a browser says that it leaves out a header that wants TLS.
    equal([each for each in phone.console() if "Opener-Policy" not in each], [], "what the browser complains of")
    phone.driver.execute_async_script("const [tag, along, done] = arguments; setNote('along ' + tag, along).then(done)", tag, along)


# The files of the shell as an older program gave them: other addresses, and a script that says so.
OLDER = r"""
const done = arguments[0];
(async () => {
  const pages = await caches.open((await caches.keys())[0]);
  for (const request of await pages.keys()) {
    const answer = await pages.match(request), headers = { 'Content-Type': answer.headers.get('Content-Type') };
    const text = await answer.text(), older = (words) => words.replace(/page\.js\?[0-9a-f]{8}/g, 'page.js?00000000');
    if (/\/page\.js\?/.test(request.url)) {
      await pages.put(older(request.url), new Response('window.olderShell = true;\n' + text, { headers }));
      await pages.delete(request);
    } else if (headers['Content-Type'].startsWith('text/html'))
      await pages.put(request.url, new Response(older(text), { headers }));
  }
  done('');
})().catch((wrong) => done(String(wrong)));
"""


def two_versions(phone, house, book, given):
    """The shell of an older program stands in the browser: what is kept with it gets in, and then it is renewed."""
    equal(phone.driver.execute_async_script(OLDER), "", "the shell is made an older one")
    phone.driver.execute_cdp_cmd("Network.clearBrowserCache", {})
    house.kill()
    phone.open("/away")
    expect(phone.driver.execute_script("return window.olderShell === true"), "the older shell opens with the house down")
    phone.wait(lambda: phone.all("#away-room form"), "the page of away")
    phone.type("amount", "14.06")
    phone.tap("Keep", "#away-room > form")
    phone.wait(lambda: phone.held() == 1, "kept with the older shell")
    house.start()
    phone.driver.execute_script("pause = 0; send()")
    phone.wait(lambda: phone.held() == 0, "what was kept with an older shell is in the book", 40)
    expect("14.06" in outbox.words_in(given.program, book), "14.06, kept with an older shell, is in the book")
    phone.driver.execute_async_script("const done = arguments[0]; dropNote('renewed').then(renewAway).then(done, done)")
    phone.open("/away")
    expect(not phone.driver.execute_script("return window.olderShell === true"), "with the house in reach the shell is renewed")


def warned(given, book):
    """Without the authority in its store the browser warns, and where that is clicked away a device is paired only when its
    person says that it shall be only at home."""
    house = harness.House(given.program, book, "--lan", harness.LAN, "--authority", address=harness.LAN)
    phone = harness.Phone(house, paired=False)
    with contextlib.suppress(harness.WebDriverException):
        phone.driver.get(f"{house.at}/pair#{house.code}")
    expect(not phone.all("form"), "without the authority the browser warns")
    # What a hand would click away, by the word that Chromium takes for it.
    harness.webdriver.ActionChains(phone.driver).send_keys("thisisunsafe").perform()
    phone.wait(lambda: phone.all("form"), "the pairing page behind the warning")
    phone.one("[name=device]").send_keys("stranger")
    phone.all("form button")[-1].click()
    phone.wait(lambda: "does not trust the authority" in phone.text(), "said: the browser does not trust it", 20)
    expect("only at home" in phone.text(), "asked whether it shall be only at home")
    expect("/pair" in phone.driver.current_url, "not paired before that is said")
    phone.close()
    return house


def one(given, house, book, reload):
    phone = harness.Phone(house)
    phone.open("/device")
    words = "a reload included" if reload else "do not reload"
    phone.wait(lambda: words in phone.text("#away"), f"{house.at}: of this device is said '{words}'")
    phone.open("/away")
    for tag in CARS:
        phone.tap(f"Take {tag} along")
        phone.wait(lambda tag=tag: f"Take {tag} along anew" in phone.text("#away-cars"), f"{tag} is taken along", 60)
    older_answers(phone, CARS[0])
    if reload:
        every_state(phone, given, book, CARS)
        two_versions(phone, house, book, given)
    house.kill()
    ways(phone, house, reload)
    kept_there(phone, house)
    decided_there(phone, house)
    worked_there(phone, house)
    false_house(phone, house, certificate_of_its_own() if reload else None)
    house.start()
    phone.open("/")
    phone.wait(lambda: phone.held() == 0, "what was kept away is in the book", 60)
    text = outbox.words_in(given.program, book)
    for amount in ("11.07", "12.08", "13.09"):
        expect(amount in text, f"{house.at}: {amount} is in the book")
    decided_in_the_book(house, given, book)
    worked_in_the_book(house, given, book)
    phone.open("/away")
    phone.wait(lambda: "sprat" not in phone.text("#away-cars") and "troupe" in phone.text("#away-cars"),
               f"{house.at}: of what was decided nothing stays on the page")
    phone.close()
    house.stop()


CARS = ("sprat", "drayman", "troupe")


def book_with(given, name):
    """Three cars before their sellers, with 207 states of their tests; one in the shop."""
    book = harness.new_book(given.program, name)
    for car in CARS:
        harness.run(given.program, "appraise", os.path.join(harness.SAMPLES, car, "job.toml"), "--keep", book=book)
    harness.run(given.program, "owner", "in", "5000", "--purse", "cash", book=book)
    harness.run(given.program, "buy", "pip", "400", "--purse", "cash", book=book)
    harness.run(given.program, "receipt", "pip", "12.50", "hose", "--purse", "cash", book=book)
    harness.run(given.program, "plan", "pip", "coolant pump", "48", "--hours", "2", book=book)
    paper = os.path.join(harness.folder, name + ".toml")
    with open(paper, "w", encoding="utf-8") as file:
        file.write(f'date = {time.strftime("%Y-%m-%d")}\nsupplier = "Millgate Parts"\nnumber = "77"\npaid = "cash"\ntotal = 112.50\nback_by = 2099-07-10\nline = [\n'
                   '  { what = "starter", unit = 60.00, core = 40.00, kind = "part", source = "reman", to = "pip" },\n'
                   '  { what = "hose, upper", unit = 12.50, kind = "part", source = "new", to = "pip" } ]\n')
    harness.run(given.program, "receipt", "--file", paper, "--again", book=book)
    harness.run(given.program, "tool", "puller", "20", "--supplier", "Millgate Parts", "--purse", "cash", book=book)
    return book


def main():
    given = harness.begin(__doc__)
    book = book_with(given, "lan.book")
    one(given, harness.House(given.program, book, "--lan", harness.LAN, "--plain", address=harness.LAN), book, False)
    book = book_with(given, "trusted.book")
    house = warned(given, book)
    harness.trust(book + ".authority/authority.crt")
    one(given, house, book, True)
    harness.end()


if __name__ == "__main__":
    main()
