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
SQL = re.compile(r"\b(SELECT|INSERT INTO|UPDATE \w+ SET|DELETE FROM|WHERE|ORDER BY|GROUP BY|JOIN|WITH RECURSIVE)\b")

# Events that move no money and stand in no figure that adds up: the second bookkeeper has nothing to say of them.
NO_MONEY = {"plan", "done", "close", "attach", "appraisal", "under"}


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
    stories = tests.get("tests/book/random_events.cpp", "")
    for word in re.findall(r'\bword<\w+>\(\s*"([^"]+)"', post):
        if f'"{word}"' not in refusals:
            yield f'src/book/events/post.cpp: the refusals of "{word}" are walked by no tests/book/refusals_*.cpp'
        if word not in NO_MONEY and f'"{word}"' not in stories:
            yield f'src/book/events/post.cpp: "{word}" stands in no story of tests/book/random_events.cpp'


def answers_tested(tree):
    """What a command or a page asks is tested as a struct, not by the text that is made of it."""
    tested = "".join(text for _, text in files(tree, "tests", ".cpp", ".h"))
    for path, _ in files(tree, "src/answers", ".h"):
        header = path[len("src/"):]
        if f'#include "{header}"' not in tested and path not in UNTESTED:
            yield f"{path}: no test includes it"
        if f'#include "{header}"' in tested and path in UNTESTED:
            yield f"tests/house.py: {path} has a test now; take it off the list"


# Parts of other answers, tested through these.
UNTESTED = set()


# --- what stands in the wrong room


def sql_above_the_book(tree):
    """A question in SQL stands in the book; who shows what comes of it knows no table."""
    for room in ("src/page", "src/commands", "src/words", "reports"):
        for path, text in files(tree, room, ".cpp", ".h"):
            for begin, _, said in literals(text):
                if SQL.search(said) and re.search(r"\b(SELECT|INSERT|UPDATE|DELETE|FROM|WHERE)\b", said):
                    yield f"{path}:{line_of(text, begin)}: SQL above the book: ask through src/book/questions"


RULES = [commands_listed, events_posted, sql_above_the_book]

# A tree in which each rule is broken once, and what has to be said of it.
PLANTED = {
    "src/commands/all.cpp": "static const std::vector<Command> commands = {\n  sell,\n};\n",
    "src/commands/sell.cpp": "const Command sell{{\"sell\"}};\n",
    "src/commands/park.cpp": "const Command park{{\"park\"}};\n",
    "src/book/events/post.cpp": "word<Sale>(\"sell\", \"a car sold\")\nword<Plan>(\"plan\", \"a line\")\n",
    "src/book/events/sell.h": "EntryId record(Recording&, const Sale&);\n",
    "src/book/events/park.h": "EntryId record(Recording&, const Parking&);\n",
    "tests/book/refusals_sale.cpp": "\"plan\"",
    "tests/book/random_events.cpp": "",
    "src/page/planted.cpp": "// SELECT is no word of ours\nfirst(book, \"SELECT 1 FROM entry\");\n",
    "src/answers/planted.cpp": "",
    "reports/none.h": "",
}
EXPECTED = [
    "src/commands/park.cpp: the command park stands in no row of src/commands/all.cpp",
    "src/book/events/park.h: Parking has no word in the table of src/book/events/post.cpp",
    'src/book/events/post.cpp: the refusals of "sell" are walked by no tests/book/refusals_*.cpp',
    'src/book/events/post.cpp: "sell" stands in no story of tests/book/random_events.cpp',
    "src/page/planted.cpp:2: SQL above the book: ask through src/book/questions",
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
