#!/usr/bin/python3
"""Prints workbooks to PDF by an independent spreadsheet program and looks at the pages.

  pages.py FILE.xlsx... [--keep FOLDER] [--fonts FOLDER] [--pages N]

Of each workbook: the first sheet fills one page in portrait and no more; every page bears the foot that says whose it is;
no page is blank; no figure is shown as ###; a picture stands whole on a page, with its legend and the names of its axes,
and has a description for who cannot see it; the heading of a table stands on every page of it; no text is smaller than 8
points. Pages are told apart by the name of the sheet in their foot. --fonts: only the fonts below that folder are there:
then nothing is measured, only that the workbook is printed within a minute. --pages: of so many pages each. --keep FOLDER keeps the PDF and its pages as
pictures. Ends with status 1 where something does not hold, naming file and page; 3 where a program fails. Needs
libreoffice-calc-nogui, poppler-utils and the fonts that the files ask for (fonts-crosextra-carlito).
"""
import argparse
import html
import os
import re
import shutil
import subprocess
import sys
import tempfile
import zipfile

from office import HELD, Office

# The height of a line of Carlito is 1.22 of its size (ascent and descent of the font); a little less for what the PDF rounds.
LINE_OF_8_POINTS = 8 * 1.22 * 0.97


def told(*words):
    return subprocess.run(words, stdout=subprocess.PIPE, text=True, check=True).stdout


def squeezed(text):
    return re.sub(r"\s+", "", text)


def number_of(column):
    number = 0
    for letter in column:
        number = number * 26 + ord(letter) - 64
    return number


class Package:
    """What the workbook asks for."""

    def __init__(self, file):
        with zipfile.ZipFile(file) as source:
            book = source.read("xl/workbook.xml").decode("utf-8")
            self.sheets = [html.unescape(name) for name in re.findall(r'<sheet name="([^"]*)"', book)]
            self.repeated = {}  # sheet -> texts of its heading row
            strings = source.read("xl/sharedStrings.xml").decode("utf-8") if "xl/sharedStrings.xml" in source.namelist() else ""
            shared = [html.unescape("".join(re.findall(r"<t[^>]*>([^<]*)</t>", each))) for each in re.findall(r"<si>(.*?)</si>", strings, re.S)]
            last = dict(re.findall(r'_xlnm\.Print_Area"[^>]*>\'?([A-Za-z]+)\'?!\$A\$\d+:\$([A-Z]+)\$\d+', book))
            for sheet, row in re.findall(r'_xlnm\.Print_Titles"[^>]*>\'?([A-Za-z]+)\'?!\$\d+:\$(\d+)', book):
                part = source.read(f"xl/worksheets/sheet{self.sheets.index(sheet) + 1}.xml").decode("utf-8")
                found = re.search(rf'<row r="{row}".*?</row>', part, re.S)
                hidden = [range(int(low), int(high) + 1) for low, high in re.findall(r'<col min="(\d+)" max="(\d+)"[^>]*hidden="1"', part)]
                cells = re.findall(r'<c r="([A-Z]+)\d+"[^>]*t="s"[^>]*><v>(\d+)</v>', found[0]) if found else []
                # What stands beyond the printed columns is on no page.
                end = last.get(sheet, "XFD")
                self.repeated[sheet] = [shared[int(each)] for column, each in cells if (len(column), column) <= (len(end), end)
                                        and not any(number_of(column) in each for each in hidden)]
            self.charts, self.legends = [], []  # legends: of several words each, as one line
            for name in sorted(name for name in source.namelist() if re.match(r"xl/charts/chart\d+\.xml$", name)):
                xml = source.read(name).decode("utf-8")
                texts = [html.unescape(text) for text in re.findall(r"<a:t>([^<]*)</a:t>", xml)]
                if "<c:legend>" in xml:
                    named = [html.unescape(text) for text in re.findall(r"<c:tx>.*?<c:v>([^<]*)</c:v>", xml)]
                    texts += named
                    if len(named) > 1:
                        self.legends.append(squeezed("".join(named)))
                self.charts.append((texts[0], texts))
            drawings = [source.read(name).decode("utf-8") for name in source.namelist() if re.match(r"xl/drawings/drawing\d+\.xml$", name)]
            self.pictures = sum(xml.count("<xdr:graphicFrame ") for xml in drawings)
            self.described = sum(len(re.findall(r'<xdr:cNvPr [^>]*descr="[^"]+"', xml)) for xml in drawings)


def smallest_words(pdf):
    """Of each page the lowest word, and its height in points."""
    found = []
    for page in told("pdftotext", "-bbox", pdf, "-").split("<page ")[1:]:
        low = (100.0, "")
        for y_min, y_max, word in re.findall(r'<word xMin="[^"]*" yMin="([^"]*)" xMax="[^"]*" yMax="([^"]*)">([^<]*)</word>', page):
            # Turned text stands higher than it is wide; letters of other scripts have fonts of their own.
            if re.fullmatch(r"[A-Za-z0-9.,:;%-]{2,}", word):
                low = min(low, (float(y_max) - float(y_min), word))
        found.append(low)
    return found


def look(file, pdf):
    package, wrong = Package(file), []
    size = re.search(r"^Page size:\s+([0-9.]+) x ([0-9.]+)", told("pdfinfo", pdf), re.M)
    pages = [page for page in told("pdftotext", "-layout", pdf, "-").split("\f")][:-1]
    of_sheet, lowest = [], smallest_words(pdf)
    for number, page in enumerate(pages, 1):
        lines = page.strip().splitlines()
        foot = lines[-1] if lines else ""
        found = re.search(r"(\S+)\s+\d+ / \d+$", foot)
        if not found or found[1] not in package.sheets:
            wrong.append(f"page {number} has no foot: {foot[-60:]!r}")
            of_sheet.append("")
            continue
        of_sheet.append(found[1])
        if len(lines) == 1:
            wrong.append(f"page {number} ({found[1]}) is blank")
        if "###" in page and "#REF!" not in page:
            wrong.append(f"page {number} ({found[1]}) shows ###")
        if of_sheet[:-1].count(found[1]) > 0:
            # Word by word: a heading of two lines stands between those of its neighbours.
            missing = [word for text in package.repeated.get(found[1], []) for word in text.split() if word not in page]
            if missing:
                wrong.append(f"page {number} ({found[1]}) lacks the heading {missing[0]!r}")
        height, word = lowest[number - 1]
        if height < LINE_OF_8_POINTS:
            wrong.append(f"page {number} ({found[1]}): {word!r} is {height / 1.22:.1f} points high")
    first = of_sheet.count(package.sheets[0])
    if first != 1 or float(size[1]) > float(size[2]):
        wrong.append(f"the first sheet takes {first} pages of {size[1]} x {size[2]} points, expected one in portrait")
    on_page = [squeezed(page) for page in pages]
    for title, texts in package.charts:
        if not any(all(squeezed(each) in page for each in texts) for page in on_page):
            wrong.append(f"the picture {title!r} stands whole on no page")
    # What a page cuts off a picture is still found in its text: then the legend is on the next page as well.
    for legend in set(package.legends):
        on = [number for number, page in enumerate(on_page, 1) if legend in page]
        if len(on) > package.legends.count(legend):
            wrong.append(f"the legend {legend!r} stands on the pages {on}: a picture is parted")
    if package.pictures != package.described:
        wrong.append(f"{package.pictures} pictures, {package.described} of them described")
    return len(pages), wrong


def only_fonts(folder, out):
    """A configuration of fontconfig in which nothing but that folder is there."""
    path = os.path.join(out, "fonts.conf")
    with open(path, "w", encoding="utf-8") as file:
        file.write(f'<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>{folder}</dir>'
                   f"<cachedir>{out}/cache</cachedir></fontconfig>")
    os.environ["FONTCONFIG_FILE"] = path


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("files", nargs="+")
    words.add_argument("--keep")
    words.add_argument("--fonts")
    words.add_argument("--pages", type=int)
    given = words.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        if given.fonts:
            only_fonts(given.fonts, folder)
            os.environ.pop(HELD, None)
        return print_all(given, folder)


def print_all(given, folder):
    status = 0
    with Office() as office:
        out = given.keep or os.path.join(folder, "printed")
        os.makedirs(out, exist_ok=True)
        for file in given.files:
            name = os.path.basename(file)
            pdf = office.convert(file, "pdf", out)
            if given.fonts:
                continue
            count, wrong = look(file, pdf)
            if given.pages and count != given.pages:
                wrong.append(f"{count} pages, expected {given.pages}")
            for line in wrong:
                print(f"{name}: {line}")
            print(f"{name}: {count} pages, {len(wrong)} wrong")
            status = 1 if wrong else status
            if given.keep:
                stem = os.path.splitext(pdf)[0]
                for old in os.listdir(out):
                    if re.fullmatch(re.escape(os.path.basename(stem)) + r"-\d+\.png", old):
                        os.remove(os.path.join(out, old))
                subprocess.run(["pdftoppm", "-png", "-r", "70", pdf, stem], check=True)
    if given.fonts:
        print(f"{len(given.files)} workbooks printed with the fonts of {given.fonts} alone")
    return status


if __name__ == "__main__":
    if not shutil.which("soffice") or not shutil.which("pdftoppm"):
        print("pages.py needs soffice and pdftoppm", file=sys.stderr)
        sys.exit(3)
    sys.exit(main())
