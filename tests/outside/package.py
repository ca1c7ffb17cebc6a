#!/usr/bin/python3
"""Holds the parts of workbooks against what the published format asks for, as far as a program of one page can.

  package.py [--told-in DEVELOPERS.md] FILE.xlsx...

--told-in: what that page lists behind "Functions used:" is what the files call, no more and no less.
Of ECMA-376 part 1 (from memory, no schema at hand): the order of the elements of a worksheet (18.3.1.99, CT_Worksheet);
no column is told of twice (18.3.1.13, col); every part has a content type, every relationship a target; sheet names are
unique, of at most 31 letters, without : \\ / ? * [ ]; defined names point at sheets that are there; indices of styles and
shared strings exist; every cell that may be changed and holds a number has a rule for what it takes (18.3.1.33,
dataValidations); every box to tick or to write in is 6 mm high on paper; every axis of numbers of a picture says of what they are; every function that a formula calls is one of those below, which stand in ECMA-376 part 1, 18.17.7
(2006) and in OpenFormula 1.2 part 4 alike (from memory).
Ends with status 1 where something does not hold.
"""
import os
import re
import sys
import xml.etree.ElementTree as tree
import zipfile

FUNCTIONS = {"ABS", "AND", "COUNTIFS", "EDATE", "FIXED", "IF", "INDEX", "ISNUMBER", "MATCH", "MAX", "MIN", "N", "NOT", "OR", "ROUND",
             "ROUNDDOWN", "ROUNDUP", "ROWS", "SUM", "SUMIFS", "SUMPRODUCT", "YEAR"}
ORDER = ["sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection",
         "protectedRanges", "scenarios", "autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells",
         "phoneticPr", "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins", "pageSetup",
         "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches", "ignoredErrors", "smartTags", "drawing",
         "legacyDrawing", "tableParts", "extLst"]
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
RELATION = "{http://schemas.openxmlformats.org/package/2006/relationships}"
TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"


def split(cell):
    letters, number = re.fullmatch(r"([A-Z]+)(\d+)", cell).groups()
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return column, int(number)


def within(cell, area):
    first, _, last = area.partition(":")
    (column, row), (left, top), (right, bottom) = split(cell), split(first), split(last or first)
    return left <= column <= right and top <= row <= bottom


def inputs_of(styles):
    """The styles of cells that may be changed and hold numbers: unlocked (18.8.33, protection), not of text ("@")."""
    found, text = set(), {"49"} | {each.get("numFmtId") for each in styles.iter(MAIN + "numFmt") if each.get("formatCode") == "@"}
    for number, style in enumerate(styles.find(MAIN + "cellXfs")):
        protection = style.find(MAIN + "protection")
        if protection is not None and protection.get("locked") == "0" and style.get("numFmtId") not in text:
            found.add(number)
    return found


# Inches by the number of the paper and whether it lies (18.3.1.63, pageSetup): Letter, A4 (ISO 216).
WIDE = {("1", False): 8.5, ("1", True): 11, ("9", False): 8.27, ("9", True): 11.69}
LEAST_BOX = 6 / 25.4 * 72  # a box to write in, printed: 6 millimetres, in points


def low_boxes(sheet, styles, last):
    """The cells to tick or to write in, unlocked and without a fill, that come out on paper below 6 millimetres."""
    boxes = {number for number, style in enumerate(styles.find(MAIN + "cellXfs")) if style.get("fillId") == "0"
             and style.find(MAIN + "protection") is not None and style.find(MAIN + "protection").get("locked") == "0"}
    pixels = 0
    for column in sheet.iter(MAIN + "col"):
        if column.get("hidden") != "1":
            shown = range(int(column.get("min")), min(int(column.get("max")), last) + 1)
            pixels += len(shown) * int(float(column.get("width")) * 7 + 0.5)
    if last == 0:
        return []  # it is not printed
    setup, margins = sheet.find(MAIN + "pageSetup"), sheet.find(MAIN + "pageMargins")
    inches = WIDE[setup.get("paperSize"), setup.get("orientation") == "landscape"] - float(margins.get("left")) - float(margins.get("right"))
    scale = min(1.0, inches * 96 / max(pixels, 1))
    return [cell.get("r") for row in sheet.iter(MAIN + "row") for cell in row if int(cell.get("s", 0)) in boxes
            and split(cell.get("r"))[0] <= last and float(row.get("ht", 15)) * scale < LEAST_BOX]


def look(file):
    wrong = []
    with zipfile.ZipFile(file) as source:
        parts = {name: source.read(name) for name in source.namelist()}
    parsed = {name: tree.fromstring(data) for name, data in parts.items()}
    types = parsed["[Content_Types].xml"]
    endings = {each.get("Extension") for each in types.findall(TYPES + "Default")}
    named = {each.get("PartName").lstrip("/") for each in types.findall(TYPES + "Override")}
    for name in parts:
        if name != "[Content_Types].xml" and name not in named and name.rsplit(".", 1)[-1] not in endings:
            wrong.append(f"{name} has no content type")
        if name.startswith("xl/") and name.endswith(".xml") and name not in named:
            wrong.append(f"{name} has no content type of its own")
    for name in named - set(parts):
        wrong.append(f"the content types name {name}, which is not there")
    for name in parts:
        if name.endswith(".rels"):
            folder = os.path.dirname(os.path.dirname(name))
            ids = set()
            for each in parsed[name].findall(RELATION + "Relationship"):
                if each.get("TargetMode") == "External":
                    wrong.append(f"{name} leads outside: {each.get('Target')}")
                    continue
                target = each.get("Target")
                target = target.lstrip("/") if target.startswith("/") else os.path.normpath(os.path.join(folder, target))
                if target not in parts:
                    wrong.append(f"{name} leads to {target}, which is not there")
                if each.get("Id") in ids:
                    wrong.append(f"{name} has {each.get('Id')} twice")
                ids.add(each.get("Id"))
    book = parsed["xl/workbook.xml"]
    names = [each.get("name") for each in book.find(MAIN + "sheets")]
    if len({name.lower() for name in names}) != len(names):
        wrong.append("two sheets have one name")
    for name in names:
        if not 0 < len(name) <= 31 or re.search(r"[:\\/?*\[\]]", name):
            wrong.append(f"the sheet name {name!r} is not allowed")
    for each in book.iter(MAIN + "definedName"):
        for sheet in re.findall(r"'?([A-Za-z]+)'?!", each.text or ""):
            if sheet not in names:
                wrong.append(f"the name {each.get('name')} points at {sheet}, which is not there")
    printed = {sheet: split(cell.replace("$", ""))[0] for each in book.iter(MAIN + "definedName") if each.get("name") == "_xlnm.Print_Area"
               for sheet, cell in re.findall(r"'?([A-Za-z]+)'?!\$A\$\d+:(\$[A-Z]+\$\d+)", each.text or "")}
    formats = len(parsed["xl/styles.xml"].find(MAIN + "cellXfs"))
    strings = len(parsed["xl/sharedStrings.xml"]) if "xl/sharedStrings.xml" in parsed else 0
    called, inputs = set(), inputs_of(parsed["xl/styles.xml"])
    for name, root in parsed.items():
        if not re.match(r"xl/worksheets/sheet\d+\.xml$", name):
            continue
        order = [ORDER.index(child.tag.replace(MAIN, "")) for child in root]
        if order != sorted(order):
            wrong.append(f"{name}: its elements stand in another order")
        told = [column for each in root.iter(MAIN + "col") for column in range(int(each.get("min")), int(each.get("max")) + 1)]
        if len(set(told)) != len(told):
            wrong.append(f"{name}: a column is told of twice")
        for cell in root.iter(MAIN + "c"):
            if int(cell.get("s", 0)) >= formats:
                wrong.append(f"{name}: {cell.get('r')} has no style {cell.get('s')}")
            if cell.get("t") == "s" and int(cell.find(MAIN + "v").text) >= strings:
                wrong.append(f"{name}: {cell.get('r')} has no text {cell.find(MAIN + 'v').text}")
            formula = cell.find(MAIN + "f")
            if formula is not None:
                called |= set(re.findall(r"([A-Z][A-Z0-9.]*)\(", re.sub(r'"[^"]*"', "", formula.text)))
        if root.find(MAIN + "sheetProtection") is None:
            wrong.append(f"{name}: it is not protected")
        for box in low_boxes(root, parsed["xl/styles.xml"], printed.get(names[int(re.search(r"(\d+)\.xml", name)[1]) - 1], 0)):
            wrong.append(f"{name}: the box {box} is printed less than 6 mm high")
        ruled = [area for rule in root.iter(MAIN + "dataValidation") for area in rule.get("sqref").split()]
        for cell in root.iter(MAIN + "c"):
            if cell.get("r") and int(cell.get("s", 0)) in inputs and not any(within(cell.get("r"), area) for area in ruled):
                wrong.append(f"{name}: {cell.get('r')} takes whatever is typed")
    for name, data in parts.items():
        if re.match(r"xl/charts/chart\d+\.xml$", name):
            for axis in re.findall(r"<c:valAx>.*?</c:valAx>", data.decode("utf-8"), re.S):
                if "<c:title>" not in axis:
                    wrong.append(f"{name}: an axis of numbers does not say of what")
    for function in sorted(called - FUNCTIONS):
        wrong.append(f"the function {function} is not one of those that both standards have")
    return called, wrong


def main():
    status, called, files, told = 0, set(), sys.argv[1:], None
    if files[0] == "--told-in":
        with open(files[1], encoding="utf-8") as page:
            told = set(re.search(r"Functions used: ([A-Z\s]+)", page.read())[1].split())
        files = files[2:]
    for file in files:
        more, wrong = look(file)
        called |= more
        for line in wrong[:20]:
            print(f"{os.path.basename(file)}: {line}")
        status = 1 if wrong else status
    if told is not None and told != called:
        print(f"told and not called: {', '.join(sorted(told - called))}; called and not told: {', '.join(sorted(called - told))}")
        status = 1
    print(f"{len(files)} packages; functions: {', '.join(sorted(called))}")
    return status


if __name__ == "__main__":
    sys.exit(main())
