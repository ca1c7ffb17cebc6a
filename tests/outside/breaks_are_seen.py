#!/usr/bin/python3
"""Breaks a workbook in each of the ways that package.py looks for, and holds LibreOffice still while it opens one: the first have
to be refused, the second ended in time with the file named.

  breaks_are_seen.py FILE.xlsx
"""
import os
import re
import subprocess
import sys
import tempfile
import zipfile

HERE = os.path.dirname(os.path.abspath(__file__))
SHEET, BOOK, LINKS = "xl/worksheets/sheet1.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"


def moved(text):
    margins = re.search(r"<pageMargins[^>]*/>", text).group()
    return text.replace(margins, "").replace("<sheetData>", margins + "<sheetData>")


def first(pattern, put, flags=0):
    return lambda text: re.sub(pattern, put, text, count=1, flags=flags)


def named_twice(text):
    name = re.search(r'<sheet name="([^"]*)"', text).group(1)
    return re.sub(r'<sheet name="[^"]*" sheetId="2"', f'<sheet name="{name}" sheetId="2"', text)


BREAKS = {
    "an element out of its order": (SHEET, moved),
    "a sheet without a content type": ("[Content_Types].xml", first(r'<Override PartName="/xl/worksheets/sheet2.xml"[^>]*/>', "")),
    "a part that is missing": ("xl/worksheets/sheet2.xml", None),
    "a relationship to nothing": (LINKS, lambda text: text.replace("worksheets/sheet2.xml", "worksheets/sheet99.xml")),
    "two sheets of one name": (BOOK, named_twice),
    "a name of 32 letters": (BOOK, first(r'<sheet name="[^"]*" sheetId="2"', f'<sheet name="{"a" * 32}" sheetId="2"')),
    "a name for a sheet that is not there": (BOOK, first(r'(<definedName name="[a-z_]+">)[A-Za-z]+!', r"\1Nowhere!")),
    "a style that is not there": (SHEET, first(r' s="\d+"', ' s="9999"')),
    "a text that is not there": (SHEET, first(r'(t="s"><v>)\d+', r"\g<1>99999")),
    "a column told of twice": (SHEET, first(r"(<col [^>]*/>)", r"\1\1")),
    "inputs without a rule": (SHEET, first(r"<dataValidations.*?</dataValidations>", "", re.S)),
    "a function of one program": (SHEET, first("<f>", "<f>XLOOKUP(1,A1,A1)+")),
    "a part that was cut off": (SHEET, lambda text: text[:len(text) // 2]),
}


def broken(whole, part, change, place):
    with zipfile.ZipFile(whole) as parts, zipfile.ZipFile(place, "w", zipfile.ZIP_DEFLATED) as out:
        for name in parts.namelist():
            held = parts.read(name)
            if name == part:
                if change is None:
                    continue
                text = held.decode()
                held = change(text).encode()
                if held.decode() == text:
                    raise SystemExit(f"breaks_are_seen.py: nothing was there to break in {name}")
            out.writestr(name, held)


def refused(file):
    return subprocess.run([os.path.join(HERE, "package.py"), file], capture_output=True, text=True, check=False, timeout=60).returncode != 0


STANDS_STILL = """
import os, signal, sys, threading, time
sys.path.insert(0, sys.argv[1])
from office import Office
with Office(patience=5) as office:
    os.killpg(office.group, signal.SIGSTOP)
    office.open(sys.argv[2])
"""


def main(whole):
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        file = os.path.join(folder, "broken.xlsx")
        if refused(whole):
            wrong.append("the whole workbook is refused")
        for what, (part, change) in BREAKS.items():
            broken(whole, part, change, file)
            if not refused(file):
                wrong.append(f"{what} is not seen")
    held = {key: text for key, text in os.environ.items() if key != "NONRUNNER_HELD_OFFICE"}
    still = subprocess.run([sys.executable, "-c", STANDS_STILL, HERE, whole], env=held, capture_output=True, text=True, check=False, timeout=120)
    if still.returncode != 3 or os.path.basename(whole) not in still.stderr:
        wrong.append(f"LibreOffice that stands still is not ended: status {still.returncode}, {still.stderr!r}")
    print(f"{len(BREAKS)} breaks refused, LibreOffice that stood still was ended" if not wrong else "\n".join(wrong))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
