#!/usr/bin/python3
"""Prints workbooks to PDF by an independent spreadsheet program and looks at the pages.

  first_page.py FILE.xlsx... [--keep FOLDER]

The first sheet of each must fill one page in portrait and no more: pages are told apart by the name of the sheet in
their foot. A picture must stand whole on a page: its title with its legend and what its axes are. --keep FOLDER keeps
the PDF of the whole workbook and its pages as pictures. Ends with status 1 where a first sheet needs more than a page
or a picture is cut, 3 where a program fails. Needs libreoffice-calc-nogui and poppler-utils.
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

from recalculate import convert


def printed(files, folder, out):
    for file in files:
        convert(file, os.path.join(folder, "profile"), "pdf", out)
    return [os.path.join(out, os.path.splitext(os.path.basename(file))[0] + ".pdf") for file in files]


def first_sheet(file):
    with zipfile.ZipFile(file) as source:
        return html.unescape(re.search(r'<sheet name="([^"]*)"', source.read("xl/workbook.xml").decode("utf-8"))[1])


def words(text):
    return re.sub(r"\s+", "", text)


def charts(file):
    """Of each picture: its title, and every text that must stand on the same page."""
    found = []
    with zipfile.ZipFile(file) as source:
        for name in sorted(name for name in source.namelist() if re.match(r"xl/charts/chart\d+\.xml$", name)):
            xml = source.read(name).decode("utf-8")
            texts = [html.unescape(text) for text in re.findall(r"<a:t>([^<]*)</a:t>", xml)]
            if "<c:legend>" in xml:
                texts += [html.unescape(text) for text in re.findall(r"<c:tx>.*?<c:v>([^<]*)</c:v>", xml)]
            found.append((texts[0], texts))
    return found


def cut(file, pdf):
    """The titles of the pictures that stand whole on no page."""
    text = subprocess.run(["pdftotext", pdf, "-"], stdout=subprocess.PIPE, text=True, check=True).stdout
    on_page = [words(page) for page in text.split("\f")]
    return [title for title, texts in charts(file) if not any(all(words(each) in page for each in texts) for page in on_page)]


def pages(pdf, sheet):
    """(pages that bear the sheet's name in their foot, all pages, width and height of the first in points)"""
    def told(*words):
        return subprocess.run(words, stdout=subprocess.PIPE, text=True, check=True).stdout
    text = told("pdfinfo", pdf)
    count = int(re.search(r"^Pages:\s+(\d+)", text, re.M)[1])
    size = re.search(r"^Page size:\s+([0-9.]+) x ([0-9.]+)", text, re.M)
    feet = [told("pdftotext", "-layout", "-f", str(page), "-l", str(page), pdf, "-").strip().splitlines()[-1] for page in range(1, count + 1)]
    return sum(foot.split()[:1] == [sheet] for foot in feet), count, float(size[1]), float(size[2])


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("files", nargs="+")
    words.add_argument("--keep")
    given = words.parse_args()
    status = 0
    with tempfile.TemporaryDirectory() as folder:
        out = given.keep or os.path.join(folder, "printed")
        os.makedirs(out, exist_ok=True)
        for file, pdf in zip(given.files, printed([os.path.abspath(file) for file in given.files], folder, out)):
            count, whole, width, height = pages(pdf, first_sheet(file))
            fits = count == 1 and height > width
            print(f"{os.path.basename(file)}: the first sheet takes {count} of {whole} pages, {width:.0f} x {height:.0f} points: "
                  f"{'one in portrait' if fits else 'expected one in portrait'}")
            status = status if fits else 1
            for title in cut(file, pdf):
                print(f'{os.path.basename(file)}: the picture "{title}" stands whole on no page')
                status = 1
            if given.keep:
                stem = os.path.splitext(pdf)[0]
                for old in os.listdir(out):
                    if re.fullmatch(re.escape(os.path.basename(stem)) + r"-\d+\.png", old):
                        os.remove(os.path.join(out, old))
                subprocess.run(["pdftoppm", "-png", "-r", "70", pdf, stem], check=True)
                print("pictures:", stem + "-*.png")
    return status


if __name__ == "__main__":
    if not shutil.which("soffice") or not shutil.which("pdftoppm"):
        print("first_page.py needs soffice and pdftoppm", file=sys.stderr)
        sys.exit(3)
    sys.exit(main())
