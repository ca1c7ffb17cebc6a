#!/usr/bin/env python3
"""Whatever a name is made of, a page shows it as text.

    names.py PROGRAM

Two books of the same events: in one every name (what, supplier, operation, purse, heading, cause, test, outcome, a
buyer, a note) ends in a harmless word, in the other in markup that would run a script, open a dialog or fetch a
picture if it became part of the page. Each page has to have the same tree of elements and attributes in both, no
dialog, no complaint of the browser's and no request to elsewhere.
"""
import re
import time

import harness
import looks
from harness import equal, expect

HOSTILE = """ <img src=x onerror=alert(1)><script>alert(2)</script>"'><svg onload=alert(3)>&lt;{}"""
# What is no name that a person types: kinds, tags, identifiers, files; all other text of the events and jobs is.
FIXED = {"do", "vehicle", "to", "id", "kind", "source", "purse", "line", "from", "job", "tag", "vin", "paper", "settles",
         "use", "place", "state", "replaces", "settled", "who"}
TREE = r"""
const tree = (each) => each.tagName + '[' + each.getAttributeNames().sort().join(' ') + ']' +
  ([...each.children].length ? '(' + [...each.children].map(tree).join(',') + ')' : '');
return tree(document.documentElement);
"""


def ending(words):
    """Every word that a person typed with `words` behind it; the links between the files stay, since both have it."""
    quoted = words.replace("\\", "\\\\").replace('"', '\\"')

    def change(text):
        key = ""
        made = []
        for part in re.findall(r'"(?:[^"\\]|\\.)*"|#[^\n]*|[\w-]+\s*=|[^"#\w]+|[\w-]+', text):
            if part.endswith("="):
                key = part.rstrip("= \t")
            if part.startswith('"') and len(part) > 2 and key not in FIXED:
                part = part[:-1] + quoted + '"'
            made.append(part)
        return "".join(made)
    return change


def pages_of(given, name, words):
    at = harness.samples(ending(words))
    book = harness.book_of(given.program, name, at, lambda typed: typed + words)
    house = harness.House(given.program, book)
    phone = harness.Phone(house)
    phone.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {
        "source": "window.alert = () => { document.title = 'a script ran'; };"})
    return house, phone


def main():
    given = harness.begin(__doc__)
    clean_house, clean = pages_of(given, "clean.book", " zz")
    pages = looks.crawl(clean)
    trees = {}
    for path in pages:
        clean.open(path)
        time.sleep(0.4)  # what the script fills in
        trees[path] = clean.driver.execute_script(TREE)
    clean.close()
    clean_house.stop()

    house, phone = pages_of(given, "hostile.book", HOSTILE)
    shown = 0
    for path in pages:
        phone.console(), phone.traffic()
        phone.open(path)
        time.sleep(0.4)
        shown += "onerror=alert(1)" in phone.text("main")
        equal(phone.driver.execute_script(TREE), trees[path], f"{path}: the tree of elements")
        expect("a script ran" not in phone.driver.title, f"{path}: a script of a name ran")
        said = phone.console()
        expect(not said, f"{path}: the console says {said[:2]}")
        phone.traffic()
    expect(phone.hosts <= {f"{house.address}:{house.port}"}, f"other hosts were asked: {phone.hosts}")
    expect(shown >= 8, f"the hostile names stood on {shown} pages only: too few to show anything")
    expect(len(pages) >= 10, f"only {len(pages)} pages were found")
    print(f"{len(pages)} pages alike with hostile names, which stood on {shown} of them")
    phone.close()
    house.stop()
    harness.end()


if __name__ == "__main__":
    main()
