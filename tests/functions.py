"""Sizes of functions: none over 60 lines and none with more than 6 parameters, but for those of the list below, each
a table or a plain list that reads better in one piece. Prints what breaks this, and a line of the list that is no
longer true; `--all` prints the twenty longest. Reads the files as the formatter lays them.

    python3 tests/functions.py FILE...
"""

import re
import sys

LINES, PARAMETERS = 60, 6

# file and function: why it stays in one piece.
TABLES = {
    ("reports/year/first.cpp", "write_account"): "the rows of the account, each naming those that it is made of",
    ("src/appraisal/job_keys.cpp", "about_the_deal"): "keys of a job file, table by table",
    ("src/appraisal/job_keys.cpp", "about_the_repair"): "keys of a job file, table by table",
    ("src/appraisal/amounts.cpp", "for_each_amount"): "every amount of a job file, by name",
    ("src/book/events/post.cpp", "words"): "the table of events: word, what it is, example",
    ("src/commands/hints.cpp", "in_shell_words"): "each hint in the words of the command line",
    ("src/page/hints.cpp", "way_on"): "each hint as a way on in the page",
    ("src/words/book_json.cpp", "as_json"): "the keys of a budget",
}

STRINGS = re.compile(r'R"(?P<mark>[^(\s]*)\(.*?\)(?P=mark)"|"(?:\\.|[^"\\\n])*"|(?<![0-9A-Fa-f])\'(?:\\.|[^\'\\\n])+\''
                     r"|//[^\n]*|/\*.*?\*/|^[ \t]*#[^\n]*(?:\\\n[^\n]*)*", re.S | re.M)
NOT_FUNCTIONS = {"if", "for", "while", "switch", "catch", "return", "constexpr", "sizeof", "decltype", "alignas"}


def blanked(text):
    """The text with strings, comments and directives blanked, its lines where they were."""
    def blank(found):
        inside = re.sub(r"[^\n]", " ", found.group())
        return '"' + inside[1:-1] + '"' if found.group()[0] in "\"'R" and len(inside) > 1 else inside
    return STRINGS.sub(blank, text)


def closing(text, at):
    """Where the bracket that opens at `at` closes."""
    pairs, depth = {"(": ")", "{": "}", "[": "]"}, 0
    opens, closes = text[at], pairs[text[at]]
    for i in range(at, len(text)):
        if text[i] == opens:
            depth += 1
        elif text[i] == closes:
            depth -= 1
            if depth == 0:
                return i
    return len(text) - 1


def parameters(inside):
    """How many parameters stand between these brackets."""
    inside = re.sub(r"->", "  ", inside)
    depth, count = 0, 1 if inside.strip() and inside.strip() != "void" else 0
    for c in inside:
        depth += (c in "(<[{") - (c in ")>]}")
        if c == "," and depth == 0:
            count += 1
    return count


def functions(text):
    """Of each function with a body, and each lambda: its name, first line, lines, parameters."""
    found, code = [], blanked(text)

    def scan(begin, end):  # between braces of a namespace or a class
        start, at = begin, begin
        while at < end:
            c = code[at]
            if c == ";":
                start = at + 1
            elif c == "{":
                last = closing(code, at)
                head = code[start:at]
                signature = re.sub(r"^(\s*(public|private|protected)\s*:(?!:))+", lambda m: " " * len(m.group()), head)
                name = re.search(r"(operator\s*(?:\(\)|[^\s\w(]+|\w+)|~?[\w:]+)\s*\(", signature)
                if re.search(r"\b(namespace|extern)\b[^()]*$", signature) or re.search(
                        r"\b(class|struct|union)\s+[\w:<>, \[\]]*(?:final\s*)?(?::[^:].*)?$", signature, re.S):
                    scan(at + 1, last)
                    start = last + 1
                elif name and name.group(1) not in NOT_FUNCTIONS and not re.search(r"=\s*$", signature):
                    opened = start + signature.index("(", name.end(1))
                    count = parameters(code[opened + 1:closing(code, opened)])
                    # A constructor may set its members in braces before its body begins.
                    while re.search(r":\s.*[\w>]$", code[start:at], re.S) and re.match(r"\s*[,{]", code[last + 1:]):
                        following = code.index("{", last + 1)
                        at, last = following, closing(code, following)
                    first = start + len(code[start:]) - len(code[start:].lstrip())
                    found.append((name.group(1), code.count("\n", 0, first) + 1,
                                  code.count("\n", first, last) + 1, count))
                    start = last + 1
                elif not re.search(r"(=|\w|>|\)|\])\s*$", signature):
                    start = last + 1
                at = last
            elif c == "(":
                at = closing(code, at)
            at += 1

    scan(0, len(code))
    for opened in re.finditer(r"\]\s*\(", code):  # a lambda
        opened = code.index("(", opened.start())
        last = closing(code, opened)
        if re.match(r"\s*(mutable\s*)?(->[^{;,)]*)?\{", code[last + 1:]):
            found.append(("a lambda", code.count("\n", 0, opened) + 1, 0, parameters(code[opened + 1:last])))
    return found


def declared(text):
    """Name, line and parameters of what is declared without a body, as far as one line can tell."""
    code = blanked(text)
    for found in re.finditer(r"(?<![\w.>])(~?[\w:]+)\s*\(", code):
        before = code[max(0, found.start() - 2):found.start()]
        opened = found.end() - 1
        last = closing(code, opened)
        if found.group(1) in NOT_FUNCTIONS or not before[-1:] in " *&" or "\n\n" in code[opened:last]:
            continue
        inside = code[opened + 1:last]
        # Parameters are a type and a name: not the arguments of a call.
        if re.match(r"\s*(const\s+)?[\w:]+(<[^()]*>)?\s*[&*]*(\s+\w+|\s*$|\s*,)", inside) and re.match(
                r"\s*(const|noexcept|override|\s)*;", code[last + 1:]):
            yield found.group(1), code.count("\n", 0, found.start()) + 1, parameters(inside)


def main(arguments):
    everything, bad, seen = [], 0, set()
    for path in [a for a in arguments if not a.startswith("-")]:
        with open(path, encoding="utf-8") as file:
            text = file.read()
        for name, line, lines, count in functions(text):
            everything.append((lines, count, path, line, name))
            if lines > LINES and (path, name) in TABLES:
                seen.add((path, name))
            elif lines > LINES:
                print(f"{path}:{line}: {name} has {lines} lines, expected at most {LINES}")
                bad = 1
            if count > PARAMETERS:
                print(f"{path}:{line}: {name} takes {count} parameters, expected at most {PARAMETERS}")
                bad = 1
        if path.endswith(".h"):
            for name, line, count in declared(text):
                if count > PARAMETERS:
                    print(f"{path}:{line}: {name} takes {count} parameters, expected at most {PARAMETERS}")
                    bad = 1
    for path, name in sorted(set(TABLES) - seen):
        if path in arguments:
            print(f"tests/functions.py: {name} of {path} is no longer over {LINES} lines; take it off the list")
            bad = 1
    if "--all" in arguments:
        for lines, count, path, line, name in sorted(everything, reverse=True)[:20]:
            print(f"{lines:4} lines, {count} parameters: {path}:{line} {name}")
        print(len(everything), "functions")
    return bad


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
