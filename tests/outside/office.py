#!/usr/bin/python3
"""An independent spreadsheet program, held open: one process of LibreOffice, ended with its whole group when it takes too long.

    with Office(patience=60) as office:
        book = office.open("FILE.xlsx")
        book.set("Yard!D5", 60); book.value("Shopping!B5"); book.close()
        office.convert("FILE.xlsx", "pdf", "FOLDER")

  office.py hold COMMAND WORDS...
      Runs the command, and every Office below it is one and the same process, so that it starts once. Its status.

Each file is opened, and each question answered, within `patience` seconds or the file is named and the program ended with
status 3. Needs libreoffice-calc-nogui and python3-uno of Debian.
"""
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException
from com.sun.star.table.CellContentType import EMPTY, FORMULA, TEXT

CELL = re.compile(r"\$?([A-Z]+)\$?(\d+)$")
HELD = "NONRUNNER_HELD_OFFICE"  # in the environment: the pipe of one that is held open, and its process
FILTERS = {"pdf": "calc_pdf_Export", "xlsx": "Calc MS Excel 2007 XML"}
# 0: whatever values a file holds, all is recalculated when it is opened.
PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
  xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def place(where):
    """"Yard!$D$5" -> ("Yard", column, row), both from 0."""
    sheet, cell = where.rsplit("!", 1)
    found = CELL.match(cell)
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - 64
    return sheet.strip("'"), column - 1, int(found[2]) - 1


class Workbook:
    def __init__(self, document, office, file):
        self.document, self.office, self.file = document, office, file
        document.lockControllers()

    def cell(self, where):
        sheet, column, row = place(where)
        return self.document.Sheets.getByName(sheet).getCellByPosition(column, row)

    def named(self, name):
        return self.document.NamedRanges.getByName(name).Content.lstrip("$")

    def value(self, where):
        """A number, a text, "" for an empty cell, or "#ERROR" for an error."""
        cell = self.cell(where)
        if cell.Type == EMPTY:
            return ""
        if cell.getError() != 0:
            return "#ERROR"
        if cell.Type == TEXT or (cell.Type == FORMULA and cell.FormulaResultType2 == 2):
            return cell.String
        return cell.Value

    def set(self, where, what):
        with self.office.watched(self.file):
            self.put(where, what)

    def put(self, where, what):
        sheet, _, _ = place(where)
        self.document.Sheets.getByName(sheet).unprotect("")
        cell = self.cell(where)
        if what == "":
            cell.String = ""
            cell.Formula = ""
        elif isinstance(what, str) and what.startswith("="):
            cell.Formula = what
        elif isinstance(what, str):
            cell.String = what
        else:
            cell.Value = what

    def formula(self, where):
        return self.cell(where).Formula

    def sheets(self):
        return list(self.document.Sheets.ElementNames)

    def used(self, sheet):
        """The last used column and row, from 0."""
        cursor = self.document.Sheets.getByName(sheet).createCursor()
        cursor.gotoEndOfUsedArea(False)
        return cursor.RangeAddress.EndColumn, cursor.RangeAddress.EndRow

    def is_formula(self, where):
        return self.cell(where).Type == FORMULA

    def keep(self, place, kind):
        with self.office.watched(self.file):
            self.document.storeToURL("file://" + os.path.abspath(place), (PropertyValue("FilterName", 0, FILTERS[kind], 0),))

    def close(self):
        self.document.close(True)


class Watched:
    """A thread of its own looks at the clock: what waits for LibreOffice hears no signal."""

    def __init__(self, office, file):
        self.office, self.file = office, file

    def __enter__(self):
        self.clock = threading.Timer(self.office.patience, self.late)
        self.clock.daemon = True
        self.clock.start()

    def late(self):
        print(f"LibreOffice did not come to an end with {self.file} in {self.office.patience} seconds", file=sys.stderr, flush=True)
        self.office.end()
        os._exit(3)

    def __exit__(self, *_):
        self.clock.cancel()


class Office:
    def __init__(self, patience=60):
        self.patience = patience

    def watched(self, file):
        return Watched(self, file)

    def start(self):
        self.folder = tempfile.mkdtemp()
        profile = os.path.join(self.folder, "profile")
        os.makedirs(os.path.join(profile, "user"))
        with open(os.path.join(profile, "user", "registrymodifications.xcu"), "w", encoding="utf-8") as out:
            out.write(PROFILE)
        self.pipe = f"nonrunner-{os.getpid()}"
        self.running = subprocess.Popen(
            ["soffice", "-env:UserInstallation=file://" + profile, "--headless", "--norestore",
             f"--accept=pipe,name={self.pipe};urp"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        self.group = self.running.pid

    def __enter__(self):
        self.held = os.environ.get(HELD)
        if self.held:
            self.pipe, group = self.held.split()
            self.group = int(group)
        else:
            self.start()
        here = uno.getComponentContext()
        resolver = here.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", here)
        until = time.time() + self.patience
        while True:
            try:
                context = resolver.resolve(f"uno:pipe,name={self.pipe};urp;StarOffice.ComponentContext")
                break
            except NoConnectException:
                if time.time() > until:
                    self.end()
                    print("LibreOffice did not start", file=sys.stderr)
                    sys.exit(3)
                time.sleep(0.2)
        self.desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        return self

    def open(self, file):
        with self.watched(file):
            hidden = PropertyValue("Hidden", 0, True, 0)
            document = self.desktop.loadComponentFromURL("file://" + os.path.abspath(file), "_blank", 0, (hidden,))
            if document is None:
                print(f"LibreOffice cannot open {file}", file=sys.stderr)
                self.end()
                sys.exit(3)
            document.calculateAll()
            return Workbook(document, self, file)

    def convert(self, file, kind, folder):
        """The place of what was made of it; "pdf" or "xlsx"."""
        os.makedirs(folder, exist_ok=True)
        made = os.path.join(folder, os.path.splitext(os.path.basename(file))[0] + "." + kind)
        book = self.open(file)
        book.keep(made, kind)
        book.close()
        return made

    def end(self):
        try:
            os.killpg(self.group, signal.SIGKILL)
        except ProcessLookupError:
            pass
        if not self.held:
            self.running.wait()

    def __exit__(self, *_):
        if self.held:
            return
        self.end()
        shutil.rmtree(self.folder, ignore_errors=True)


def hold(words):
    with Office() as office:
        return subprocess.run(words, env={**os.environ, HELD: f"{office.pipe} {office.group}"}, check=False).returncode


if __name__ == "__main__":
    if len(sys.argv) < 3 or sys.argv[1] != "hold":
        print(__doc__, file=sys.stderr)
        sys.exit(2)
    sys.exit(hold(sys.argv[2:]))
