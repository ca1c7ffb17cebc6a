"""Rules of the house that take more than a search for a word: what is forgotten when something is added, and what stands
in the wrong room. Prints what breaks them. Each rule is first shown a tree in which it is broken.

    python3 tests/house.py            below this folder
"""

import os
import re
import sys
import tempfile

STRING = re.compile(r'R"(?P<mark>[^(\s]*)\((?P<raw>.*?)\)(?P=mark)"|"(?P<plain>(?:\\.|[^"\\\n])*)"|//[^\n]*|/\*.*?\*/'
                    r"|(?<![0-9A-Fa-f])'(?:\\.|[^'\\\n])+'", re.S)
SQL = re.compile(r"\bSELECT\b.*|\bINSERT INTO\b|\bUPDATE \w+ SET\b|\bDELETE FROM\b|\bWHERE \S+ (=|<|>|IN|IS|NOT)"
                 r"|\b(ORDER|GROUP) BY\b|\bJOIN \w+ (USING|ON|\w+ USING|\w+ ON)\b")


def files(tree, folder, *endings):
    for where, _, names in os.walk(os.path.join(tree, folder)):
        for name in sorted(names):
            if name.endswith(endings):
                path = os.path.join(where, name)
                with open(path, encoding="utf-8") as file:
                    yield os.path.relpath(path, tree), file.read()


def text_of(tree, path):
    with open(os.path.join(tree, path), encoding="utf-8") as file:
        return file.read()


def literals(text):
    """Where each string literal begins, where it ends, and what it says."""
    for found in STRING.finditer(text):
        if found.group("raw") is not None or found.group("plain") is not None:
            said = found.group("raw") if found.group("raw") is not None else found.group("plain")
            yield found.start(), found.end(), said


def line_of(text, at):
    return text.count("\n", 0, at) + 1


# --- what is forgotten when something is added


def commands_listed(tree):
    """A command that no list names is there and nobody can call it."""
    every = text_of(tree, "src/commands/all.cpp")
    listed = set(re.findall(r"\w+", re.search(r"commands = \{(.*?)\};", every, re.S).group(1)))
    for path, text in files(tree, "src/commands", ".cpp"):
        for name in re.findall(r"^const Command (\w+)\{", text, re.M):
            if name not in listed:
                yield f"{path}: the command {name} stands in no row of src/commands/all.cpp"


def events_posted(tree):
    """An event without a word in an events file cannot be exported and made again; one that no test walks through is
    refused in nobody's order."""
    post = text_of(tree, "src/book/events/post.cpp")
    for path, text in files(tree, "src/book/events", ".h"):
        for name in re.findall(r"^EntryId record\(Recording&, const (\w+)&\);", text, re.M):
            if f"word<{name}>(" not in post:
                yield f"{path}: {name} has no word in the table of src/book/events/post.cpp"
    tests = {path: text for path, text in files(tree, "tests/book", ".cpp")}
    refusals = "".join(text for path, text in tests.items() if "refusals" in os.path.basename(path))
    for word in re.findall(r'\bword<\w+>\(\s*"([^"]+)"', post):
        if f'"{word}"' not in refusals:
            yield f'src/book/events/post.cpp: the refusals of "{word}" are walked by no tests/book/refusals_*.cpp'


def events_typed(tree):
    """An event that no command enters is there for those who write files by hand alone."""
    typed = "".join(text for _, text in files(tree, "src/commands", ".cpp"))
    for header in set(re.findall(r'#include "(book/events/\w+\.h)"', typed)):
        if os.path.exists(os.path.join(tree, "src", header)):
            typed += text_of(tree, "src/" + header)  # what it suggests is of another event, which is entered by it
    for path, text in files(tree, "src/book/events", ".h"):
        for name in re.findall(r"^EntryId record\(Recording&, const (\w+)&\);", text, re.M):
            if not re.search(rf"\b{name}\b", typed) and f'#include "{path[len("src/"):]}"' not in typed:
                yield f"{path}: no command enters {name}"


def answers_tested(tree):
    """A new answer is tested as a struct, not by the text that is made of it."""
    tested = "".join(text for _, text in files(tree, "tests", ".cpp", ".h"))
    for path, _ in files(tree, "src/answers", ".h"):
        name = os.path.basename(path)[:-len(".h")]
        if f'#include "answers/{name}.h"' not in tested:
            yield f"{path}: no test includes it"


def answers_asked(tree):
    """An answer that nothing above asks, and no other answer, is said nowhere; nor is one whose words nobody says."""
    asked = {path: text for path, text in files(tree, "src", ".cpp", ".h")}
    for path in list(asked):
        if path.startswith(("src/answers/", "src/words/")) and path.endswith(".h"):
            own = (path, path[:-len(".h")] + ".cpp")
            if not any(f'#include "{path[len("src/"):]}"' in text for other, text in asked.items() if other not in own):
                yield f"{path}: nothing asks it"


def cells_held(tree):
    """A cell that is read by its place reads another column as soon as one is put before it."""
    held = text_of(tree, "tests/book/details.cpp")
    every = text_of(tree, "src/book/ledger/details.h")
    for table, names in re.findall(r"namespace (\w+) \{\nenum : std::size_t \{ ([^}]*) \};", every):
        for name in names.split(", "):
            if f'column_at("{table}", in::{table}::{name})' not in held:
                yield f"src/book/ledger/details.h: tests/book/details.cpp does not hold {table}::{name}"


# --- what stands in the wrong room


def sql_above_the_book(tree):
    """A question in SQL stands in the book; who shows what comes of it knows no table."""
    for room in ("src/page", "src/commands", "src/words", "src/workbooks", "reports"):
        for path, text in files(tree, room, ".cpp", ".h"):
            for begin, _, said in literals(text):
                if SQL.search(said):
                    yield f"{path}:{line_of(text, begin)}: SQL above the book: ask through src/book/questions"


# What is said to whoever typed it is part of an error or of a question; what a question is made of, and what the book
# keeps in its own words, stands in these files.
MESSAGES = re.compile(r"Refusal|WrongUsage|MachineFailure|logic_error|NotSoldRunning|refuse|wrong\(|[Qq]uestion|choices"
                      r"|did_you_mean|yes_or_no|parse_toml|expected =")
SAID = {
    "src/figures/aim.h": "what the reference of job files says of the keys of [aims]",
    "src/figures/appraisal.h": "the names of the four courses",
    "src/answers/taken_back.cpp": "what a question about a void names",
    "src/answers/finding.cpp": "which names a message offers",
    "src/answers/fixes.cpp": "what a refusal says was allowed",
    "src/answers/doubles.cpp": "what a question about a double names",
    "src/answers/appraise.cpp": "the words in which the book keeps what was seen with an appraisal",
    "src/answers/entering.cpp": "the words in which the book keeps why a quick line gave its place",
    "src/answers/by_hand.cpp": "how forms and their refusals call the figures of a file",
    "src/answers/kept_job.cpp": "how messages call a kept file",
    "src/answers/profit.cpp": "the names of two lines that every estimate has",
}


def sentences(tree):
    """Answers and figures are structs: what is said of them stands in src/words, or on the sheet that shows them."""
    for room in ("src/answers", "src/figures"):
        for path, text in files(tree, room, ".cpp", ".h"):
            if path in SAID:
                continue
            for begin, _, said in literals(text):
                plain = re.sub(r"\{[^}]*\}|\\.", "", said)
                if SQL.search(said) or not re.search(r"[A-Za-z]{2,}[,:;]? [a-z]+[,:;]? [a-z]{2,}", plain):
                    continue
                start = max(text.rfind(";", 0, begin), text.rfind("{\n", 0, begin), text.rfind("}\n", 0, begin))
                if not MESSAGES.search(text[start + 1:begin]):
                    yield f"{path}:{line_of(text, begin)}: a sentence in an answer: \"{said}\" is for src/words to say"


# What an event said is read again only to make an event or a row of it once more, or to show its words: a figure and the place
# of an entry stand in columns.
EVENT_READ = {
    "src/book/ledger/event_text.h": "where it is declared",
    "src/book/ledger/event_text.cpp": "where it is made",
    "src/book/events/correct.cpp": "enters the event anew",
    "src/book/events/void_entry.cpp": "enters what stays paid of a sale",
    "src/book/care/export.cpp": "writes the events of a book",
    "src/book/care/mend.cpp": "enters the events of another book",
    "src/book/care/older_facts.cpp": "fills the columns of older entries",
    "src/book/care/older_places.cpp": "fills the columns of older entries",
    "src/book/questions/journal.cpp": "shows its words",
    "src/answers/unplaced.cpp": "asks which of its words are a line of a budget",
    "src/page/correct.cpp": "puts its words into a form",
}
EVENT_SEARCHED = re.compile(r"\bevent\b\s+(NOT\s+)?(LIKE|GLOB|REGEXP|MATCH)\b|\b(instr|substr|like|glob)\(\s*(\w+\.)?event\b", re.I)


def events_are_no_data(tree):
    """Words that a person typed may look like a key of the event that keeps them."""
    for path, text in files(tree, "src", ".cpp", ".h"):
        if re.search(r"\bkept_event\(|\bparse_toml\(\s*\"e = \"", text) and path not in EVENT_READ:
            yield f"{path}: reads an event again: what is wanted of it is a column (tests/house.py says who may)"
        if any(EVENT_SEARCHED.search(said) for _, _, said in literals(re.sub(r'"\s*\n\s*"', "", text))):
            yield f"{path}: searches the text of an event: ask the columns"


def counted_by_hand(tree):
    """One place knows when a thing is one thing (text/counted.h)."""
    for room in ("src", "reports"):
        for path, text in files(tree, room, ".cpp", ".h"):
            for found in re.finditer(r'\? "" : "s"|\? "s" : ""', text):
                yield f"{path}:{line_of(text, found.start())}: counts by hand: counted() of text/counted.h does"


RULES = [commands_listed, events_posted, events_typed, answers_tested, answers_asked, cells_held, sql_above_the_book, sentences,
         events_are_no_data, counted_by_hand]

# A tree in which each rule is broken once, and what has to be said of it.
PLANTED = {
    "src/commands/all.cpp": "static const std::vector<Command> commands = {\n  sell,\n};\n",
    "src/commands/sell.cpp": "const Command sell{{\"sell\"}};\n",
    "src/commands/park.cpp": "const Command park{{\"park\"}};\n",
    "src/book/events/post.cpp": "word<Sale>(\"sell\", \"a car sold\")\nword<Plan>(\"plan\", \"a line\")\n",
    "src/book/events/sell.h": "EntryId record(Recording&, const Sale&);\n",
    "src/book/events/park.h": "EntryId record(Recording&, const Parking&);\n",
    "tests/book/refusals_sale.cpp": "\"plan\"",
    "src/book/ledger/details.h": "namespace paper {\nenum : std::size_t { supplier, number };\n}\n",
    "tests/book/details.cpp": 'CHECK(column_at("paper", in::paper::number) == "number");',
    "src/page/planted.cpp": "// SELECT is no word of ours\nfirst(book, \"SELECT 1 FROM entry\");\n",
    "src/answers/planted.h": "",
    "src/words/planted.h": "",
    "src/answers/planted.cpp": 'out.text = "nobody knows why";\nthrow Refusal("planted: nobody knows why");\n',
    "src/book/questions/planted.cpp": 'kept_event(text);\nfirst(book, "SELECT 1 FROM entry e WHERE e.event "\n  "LIKE \'%replaces%\'");\n',
    "src/book/ledger/planted.cpp": 'parse_toml("e = " + entry.event, "the entry");\n',
    "reports/planted.cpp": 'text = days == 1 ? "" : "s";\n',
    "reports/none.h": "",
}
EXPECTED = [
    "src/commands/park.cpp: the command park stands in no row of src/commands/all.cpp",
    "src/book/events/park.h: Parking has no word in the table of src/book/events/post.cpp",
    "src/book/events/sell.h: no command enters Sale",
    "src/book/events/park.h: no command enters Parking",
    'src/book/events/post.cpp: the refusals of "sell" are walked by no tests/book/refusals_*.cpp',
    "src/answers/planted.h: no test includes it",
    "src/answers/planted.h: nothing asks it",
    "src/words/planted.h: nothing asks it",
    "src/book/ledger/details.h: tests/book/details.cpp does not hold paper::supplier",
    "src/page/planted.cpp:2: SQL above the book: ask through src/book/questions",
    'src/answers/planted.cpp:1: a sentence in an answer: "nobody knows why" is for src/words to say',
    "src/book/ledger/planted.cpp: reads an event again: what is wanted of it is a column (tests/house.py says who may)",
    "src/book/questions/planted.cpp: reads an event again: what is wanted of it is a column (tests/house.py says who may)",
    "src/book/questions/planted.cpp: searches the text of an event: ask the columns",
    "reports/planted.cpp:1: counts by hand: counted() of text/counted.h does",
]


def broken(tree):
    return [what for rule in RULES for what in rule(tree)]


def main():
    with tempfile.TemporaryDirectory() as tree:
        for path, text in PLANTED.items():
            os.makedirs(os.path.join(tree, os.path.dirname(path)), exist_ok=True)
            with open(os.path.join(tree, path), "w", encoding="utf-8") as file:
                file.write(text)
        found = broken(tree)
    unseen = [what for what in EXPECTED if what not in found] + [what for what in found if what not in EXPECTED]
    for what in unseen:
        print(f"tests/house.py: of what was planted this was not seen, or too much: {what}")
    bad = broken(".")
    for what in bad:
        print(what)
    return 1 if bad or unseen else 0


if __name__ == "__main__":
    sys.exit(main())
