#!/usr/bin/env python3
"""Every page as it looks: axe without a violation, no sideways scroll, targets, text, weight, no other host.

    looks.py PROGRAM --axe axe.min.js [--pictures FOLDER]

The pages are found as a person finds them: from the first page by its links, one of each road. Each is looked at on a
phone (360 x 740) and a laptop (1280 x 800), light and dark, and at 320 px. Sources: WCAG 2.2 for contrast, names and
roles (by axe-core's rules) and for targets of 24 px (2.5.8); 44 px for what stands by itself (2.5.5), text of 16 px,
60 KB as sent and 5 requests a page are this page's own promises.
"""
import os
import re
import sys
import time

import harness
import taps
from harness import expect

MEASURE = r"""
const small = [], tiny = [], inline = [];
const shown = (each) => each.getClientRects().length > 0 && getComputedStyle(each).visibility !== 'hidden' &&
  !each.closest('[hidden]');
for (const each of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')) {
  if (!shown(each)) continue;
  let box = each.getBoundingClientRect();
  if (['checkbox', 'radio'].includes(each.type) && each.closest('label')) box = each.closest('label').getBoundingClientRect();
  const within = each.closest('td, th, p, li, caption, dd, small');
  const least = within && !each.closest('.choices, form:not(td form), nav') ? 24 : each.closest('td, th') ? 24 : 44;
  if (box.height < least - 0.5 || box.width < 24 - 0.5)
    small.push(`${each.tagName.toLowerCase()} '${(each.textContent || each.name || '').trim().slice(0, 40)}' ` +
      `${Math.round(box.width)} x ${Math.round(box.height)}, ${least} expected`);
}
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const text = walker.currentNode, up = text.parentElement;
  if (!text.data.trim() || !shown(up) || ['SCRIPT', 'STYLE', 'TITLE'].includes(up.tagName)) continue;
  const size = parseFloat(getComputedStyle(up).fontSize);
  const svg = up.closest('svg');
  const scale = svg ? svg.getBoundingClientRect().width / (svg.viewBox.baseVal.width || svg.getBoundingClientRect().width) : 1;
  if (svg && up.closest('title, desc')) continue;
  if (size * scale < (svg ? 12 : 16) - 0.05) tiny.push(`'${text.data.trim().slice(0, 40)}' ${(size * scale).toFixed(1)} px`);
}
for (const each of document.querySelectorAll('*')) {
  if (each.hasAttribute('style') && !each.closest('svg')) inline.push(each.tagName + ' style');
  for (const name of each.getAttributeNames()) if (name.startsWith('on')) inline.push(each.tagName + ' ' + name);
  if (each.tagName === 'SCRIPT' && !each.src) inline.push('inline script');
  if (each.tagName === 'STYLE') inline.push('inline style');
}
return {small, tiny, inline, wide: document.documentElement.scrollWidth, h1: document.querySelectorAll('h1').length,
  title: document.title, lang: document.documentElement.lang,
  figures: [...document.querySelectorAll('.figure')].filter(shown).length};
"""
AXE = ("const done = arguments[arguments.length - 1]; const rules = arguments[0];"
       "axe.run(document, rules ? {runOnly: {type: 'rule', values: rules}} : {}).then("
       "(r) => done(r.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.target.join(' ') + ' ' + "
       "(n.any[0] ? n.any[0].message : '')).slice(0, 3).join(' | '))), (e) => done(['axe: ' + e.message]))")


def road_of(path):
    """'/car/pip/more' and '/car/wren/more' are one road."""
    path, _, query = path.partition("?")
    parts = path.strip("/").split("/")
    words = {"car", "more", "seller", "go-on", "sell", "report", "year", "paper", "new", "correct", "entries", "due",
             "shopping", "tray", "hours", "receipt", "device", "away", "undo"}
    return "/" + "/".join(p if p in words else "*" for p in parts if p) + \
        ("?" + ",".join(sorted(re.findall(r"(?:^|&)([a-z-]+)=", query))) if query else "")


def not_pages(path):
    return re.match(r"/(workbook|photo|take-along|due\.ics|style\.css|page\.js|pair|icon)", path)


def links(phone):
    found = phone.driver.execute_script(
        "return [...document.querySelectorAll('a[href]')].map((a) => a.href)")
    return [each[len(phone.house.at):].partition("#")[0] for each in found if each.startswith(phone.house.at + "/")]


def crawl(phone, first="/", most=60):
    seen, wanted, pages = set(), [first], []
    while wanted and len(pages) < most:
        path = wanted.pop(0)
        road = road_of(path)
        if road in seen or not_pages(path):
            continue
        seen.add(road)
        phone.open(path)
        pages.append(path)
        wanted += links(phone)
    return pages


def weigh(phone, path):
    """As opened the first time: nothing from the browser's cache, nor from what the page keeps for the yard."""
    phone.driver.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": True})
    phone.driver.execute_cdp_cmd("Network.setBypassServiceWorker", {"bypass": True})
    phone.traffic(), phone.console()
    phone.open(path)
    time.sleep(0.3)  # what the script asks for on its own
    asked = [each for each in phone.traffic() if not re.search(r"/(photo/|entry/)", each[0])]
    phone.driver.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": False})
    phone.driver.execute_cdp_cmd("Network.setBypassServiceWorker", {"bypass": False})
    expect(all(size > 0 for _, size, _ in asked), f"{path}: each request was weighed: {asked}")
    weight = sum(size for _, size, _ in asked)
    most = 60 * 1024
    expect(weight <= most, f"{path}: {weight} bytes were sent, at most {most} expected")
    expect(len(asked) <= 5, f"{path}: {len(asked)} requests, at most 5 expected: {[u for u, _, _ in asked]}")
    for url, _, status in asked:
        expect(status in (200, 204, 304), f"{path}: {url} was answered {status}")
    said = phone.console()
    expect(not said, f"{path}: the console says {said[:3]}")
    return weight


def thirty_lines(phone):
    """A paper of thirty lines is made in the browser: nothing more is sent for it."""
    phone.open("/paper/new")
    time.sleep(0.3)
    phone.traffic()
    for _ in range(30 - len(phone.all("fieldset.line"))):
        phone.tap("One more line")
    expect(phone.all("[name='line.30.what']") and phone.all("[name='line.30.core_by']"), "a paper has thirty lines")
    equal_choices = phone.driver.execute_script(
        "const of = (n) => [...document.querySelector(`[name='line.${n}.to']`).options].map((each) => each.value).join();"
        "return of(1) === of(2) && of(1) === of(30)")
    expect(equal_choices, "each of its lines has the cars to choose from")
    expect(not phone.traffic(), "and nothing was sent for them")


def twice_the_size(house, pages, pictures):
    """WCAG 2.2, 1.4.4: a phone whose letters are set to twice the size: nothing grows out of its page."""
    house.fresh_code()
    phone = harness.Phone(house, paired=False, letters=32)
    phone.pair("phone of large letters")
    for path in pages:
        phone.open(path)
        wide, which = phone.driver.execute_script(
            "return [document.documentElement.scrollWidth, [...document.querySelectorAll('main *, header *')].filter((each) => "
            "each.getBoundingClientRect().right > 361).slice(0, 3).map((each) => each.tagName + ' ' + each.textContent.trim().slice(0, 30))]")
        expect(wide <= harness.PHONE[0], f"{path}: {wide} px wide with letters of twice the size: {which}")
        if pictures:
            phone.picture(os.path.join(pictures, re.sub(r"[^a-z0-9]+", "-", path.strip("/").lower())[:60] + "-twice.png"))
    phone.close()


UNCOVERED = r"""
const covered = [];
for (const each of document.querySelectorAll('fieldset.line input, fieldset.line select, [name=supplier], [name=total]')) {
  if (!each.getClientRects().length || !each.checkVisibility()) continue;
  each.scrollIntoView({block: 'center'});
  const box = each.getBoundingClientRect();
  const top = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
  if (top !== each) covered.push(each.name + ' under ' + (top ? top.tagName + ' ' + top.className : 'nothing'));
}
return covered;
"""
REACHED = r"""
const pane = document.querySelector('.pane'), picture = pane.querySelector('img');
pane.scrollTo(0, 0);
const of = picture.getBoundingClientRect(), within = pane.getBoundingClientRect();
return {wide: of.width, high: of.height, reached: of.left >= within.left - 1 && of.top >= within.top - 1 &&
  pane.scrollWidth >= of.width - 1 && pane.scrollHeight >= of.height - 1};
"""


def with_photo(phone):
    """The number of a quick line of pip that has a photo."""
    phone.open("/receipt?car=pip")
    phone.one("input[data-photo]").send_keys(taps.photo())
    phone.wait(lambda: phone.all("img.photo"), "the photo is shown before it is kept")
    phone.type("amount", "33.30", clear=True)
    phone.go("Keep")
    phone.wait(lambda: phone.held() == 0, "the photo is in the book")
    return re.search(r"entry=(\d+)", phone.driver.current_url)[1]


def paper_beside_photo(phone, entry):
    """At the table each field of a line is in reach, and the photo is whole however it is turned."""
    for size in ((1024, 768), harness.TABLE, (1920, 1080)):
        phone.look(size)
        phone.open(f"/paper/{entry}")
        phone.wait(lambda: phone.driver.execute_script(
            "const i = document.querySelector('.pane img'); return i && i.complete && i.naturalWidth > 0"), "the photo is there")
        covered = phone.driver.execute_script(UNCOVERED)
        expect(not covered, f"a paper beside its photo at {size[0]}: {covered[:4]}")
        beside = phone.driver.execute_script(
            "return document.querySelector('.photos').getBoundingClientRect().right <= "
            "document.querySelector('form.wide').getBoundingClientRect().left + 1")
        expect(beside, f"the photo stands beside the form at {size[0]}")
        was = phone.driver.execute_script(REACHED)
        phone.tap("Turn")
        phone.wait(lambda: phone.driver.execute_script(REACHED)["high"] > phone.driver.execute_script(REACHED)["wide"],
                   "a photo that lay on its side stands")
        now = phone.driver.execute_script(REACHED)
        expect(was["wide"] > was["high"] and now["reached"], f"all of the turned photo is in reach at {size[0]}: {now}")
    phone.look(harness.PHONE)


def question(phone):
    """What a browser without a script is asked: the same receipt again."""
    for _ in range(2):
        phone.open("/receipt?car=pip")
        phone.type("amount", "7.70", clear=True)
        was = phone.all("html")[0]
        phone.driver.execute_script("document.querySelector('[name=amount]').form.submit()")
        phone.left(was)
    expect("One question" in phone.text("h1"), "the same receipt again is asked about")


def samples_weighed(given, house, phone):
    """The longest pages that the sample jobs make: many lines, many causes, three cars to shop for."""
    harness.run(given.program, "appraise", os.path.join(harness.SAMPLES, "troupe", "job.toml"), "--keep", book=house.book)
    for car, price in (("tern", "300"), ("rook", "250")):
        harness.run(given.program, "buy", car, price, "--purse", "cash", book=house.book)
    return max(weigh(phone, path) for path in
               ("/seller/sprat", "/seller/troupe", "/car/sprat", "/paper/new", "/shopping"))


def look(phone, path, axe, pictures):
    name = re.sub(r"[^a-z0-9]+", "-", path.strip("/").lower())[:60] or "cars"
    for size, dark, rules in ((harness.PHONE, False, None), (harness.PHONE, True, ["color-contrast"]),
                              (harness.TABLE, True, ["color-contrast"]), (harness.TABLE, False, None)):
        phone.look(size, dark)
        kind = f"{size[0]}-{'dark' if dark else 'light'}"
        for each in phone.driver.execute_async_script(AXE, rules):
            expect(False, f"{path} {kind}: axe: {each}")
        found = phone.driver.execute_script(MEASURE)
        expect(found["wide"] <= size[0], f"{path} {kind}: {found['wide']} px wide")
        if not dark:
            for words in ("small", "tiny", "inline"):
                expect(not found[words], f"{path} {kind}: {words}: {found[words][:4]}")
            expect(found["h1"] == 1, f"{path}: {found['h1']} headings of the first order")
            expect(found["figures"] <= 7, f"{path} {kind}: {found['figures']} large figures")
            expect(found["lang"] == "en" and found["title"], f"{path}: no language or no title")
        if pictures:
            phone.picture(os.path.join(pictures, f"{name}-{kind}.png"))
    phone.look((320, 640))
    found = phone.driver.execute_script("return document.documentElement.scrollWidth")
    expect(found <= 320, f"{path}: {found} px wide at 320")
    if pictures:
        phone.picture(os.path.join(pictures, f"{name}-320.png"))
    phone.look(harness.PHONE)


def main():
    given = harness.begin(__doc__)
    if not os.path.exists(given.axe):
        sys.exit(f"looks.py: axe.min.js was not found at '{given.axe}', axe-core was expected; say --axe")
    with open(given.axe, encoding="utf-8") as file:
        axe = file.read()
    house = harness.House(given.program, harness.book_of(given.program))
    phone = harness.Phone(house)
    pages = crawl(phone)
    heaviest = 0
    for path in pages:
        heaviest = max(heaviest, weigh(phone, path))
        phone.driver.execute_script(axe)
        look(phone, path, axe, given.pictures)
    entry = with_photo(phone)
    paper_beside_photo(phone, entry)
    for path in (f"/paper/{entry}", f"/correct/{entry}", "/sell/pip"):
        phone.open(path)
        phone.driver.execute_script(axe)
        look(phone, path, axe, given.pictures)
    question(phone)
    phone.driver.execute_script(axe)
    look(phone, "one question", axe, given.pictures)
    heaviest = max(heaviest, samples_weighed(given, house, phone))
    thirty_lines(phone)
    twice_the_size(house, pages, given.pictures)
    equal_hosts = {each for each in phone.hosts if each != f"{house.address}:{house.port}"}
    expect(not equal_hosts, f"other hosts were asked: {equal_hosts}")
    expect(len(pages) >= 10, f"only {len(pages)} pages were found: {pages}")
    print(f"{len(pages)} pages, the heaviest {heaviest} bytes: {' '.join(pages)}")
    phone.close()
    house.stop()
    harness.end()


if __name__ == "__main__":
    main()
