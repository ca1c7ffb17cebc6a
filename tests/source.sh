#!/bin/sh
# Reads the source: what no test of behaviour would notice.
set -u
cd "$(dirname "$0")/.."
bad=0
complain() { echo "$1"; bad=1; }

# The layout of the house, and arrows that point down only.
for entry in $(git ls-files | cut -d/ -f1 | sort -u); do
  case $entry in
    .*|CMakeLists.txt|README.md|DEVELOPERS.md|src|schema|reports|tests|sample-jobs) ;;
    *) complain "top level: $entry does not belong there" ;;
  esac
done
knows() {  # knows FOLDER ROOM...: files of FOLDER include headers of these rooms only
  folder=$1
  shift
  rooms=$(echo "$*" | tr ' ' '|')
  [ -d "$tree/$folder" ] || return 0
  (cd "$tree" && grep -rnE '#include "[a-z_]+/' "$folder") | grep -vE "#include \"($rooms)/" |
    sed "s|\$|   <- $folder knows $* only|" | grep . && bad=1
}
arrows() {  # of the house below this folder
  tree=$1
  # By a way around, no room could be told.
  (cd "$tree" && grep -rnE '# *include (".*\.\.|<(exact|figures|text|chance|resale|appraisal|book|answers|words|workbooks|page|commands|reports)/)|# +include' src reports) |
    sed 's|$|   <- name the room, as #include "room/file.h"|' | grep . && bad=1
  knows src/exact exact
  knows src/figures figures exact
  knows src/text text figures exact
  knows src/chance chance figures exact
  knows src/resale resale chance text figures exact
  knows src/appraisal appraisal resale chance text figures exact
  knows src/book book text figures exact
  knows src/answers answers book appraisal resale chance text figures exact
  knows src/words words answers book appraisal resale chance text figures exact
  knows reports reports figures exact
  knows src/workbooks workbooks reports words answers book exact figures
  knows src/page page workbooks reports words answers book appraisal resale chance text figures exact
  knows src/commands commands page workbooks reports words answers book appraisal resale chance text figures exact
  return 0
}
arrows .
# An arrow that points up is seen: one is planted for each room.
planted=$(mktemp -d)
for room in src/exact src/figures src/text src/chance src/resale src/appraisal src/book src/answers src/words src/workbooks src/page reports; do
  mkdir -p "$planted/$room"
  echo '#include "commands/options.h"' >"$planted/$room/planted.h"
done
echo '#include "exact/../book/ledger/book.h"' >"$planted/src/figures/around.h"
echo '#include <book/ledger/book.h>' >"$planted/src/figures/angled.h"
echo '# include "book/ledger/book.h"' >"$planted/src/figures/apart.h"
kept=$bad
[ "$(arrows "$planted" | wc -l)" = 15 ] || complain "arrows: one that was planted was not seen"
bad=$kept
rm -r "$planted"

# What is wrong is said below, what to type by the command line alone: no command and no option stands in a text of
# another room (exact/hint.h). Shown on planted ones as well.
commands=$(grep -rhoE '"nonrunner [a-z-]+' src/commands | sed 's/"nonrunner //' | sort -u | paste -s -d '|')
typed() {  # of the house below this folder
  (cd "$1" && grep -rnE "\"[^\"]*nonrunner ($commands)|\"([^\"]*[^-!<])?--[a-z]" src/exact src/figures src/text src/chance src/resale \
    src/appraisal src/book src/answers src/words src/workbooks src/page reports --include=*.h --include=*.cpp 2>/dev/null) |
    grep -vE '#include|^[^:]*:[0-9]*: *//'
}
typed . | sed 's|$|   <- names a command or an option|' | grep . && bad=1
planted=$(mktemp -d)
mkdir -p "$planted/src/book" "$planted/reports"
echo 'throw Refusal("sell: buy it first: nonrunner buy pip");' >"$planted/src/book/planted.cpp"
echo 'const char* text = "say it with --again";' >"$planted/reports/planted.h"
echo '  "--again";' >"$planted/reports/again.h"
[ "$(typed "$planted" | wc -l)" = 3 ] || complain "texts: a command that was planted was not seen"
rm -r "$planted"

# Money never meets a double.
grep -nE '\b(double|float)\b' src/exact/money.* src/exact/rate.* src/exact/price.* src/exact/spread.* src/exact/decimal.* | grep -v '//.*\(double\|float\)' && complain "src/exact: a double near money"
grep -rnE '\b(double|float)\b' src/book | grep -vE 'margin|ratio|static_cast<double>|//' && complain "src/book: a double near money"

# Columns come as what they are (book/ledger/query.h); by their number only where the query itself is made, where a
# book is opened, and where a file is read that is no book of ours yet.
git ls-files 'src/*.cpp' 'src/*.h' | grep -vE 'ledger/(query|book)\.cpp|care/(layout|mend)\.cpp' | xargs grep -n 'getColumn' && complain "columns by number: ask through book/ledger/query.h"

# A big-integer library in a header is paid for in every file.
git ls-files '*.h' | xargs grep -n 'boost/multiprecision' && complain "a header may not include the big integers"

# JSON is compiled in one room, and in a way that does not cost minutes (words/json.h).
git ls-files 'src/*.h' 'src/*.cpp' 'reports/*' | grep -v -e '^src/words/' -e '^src/text/json.cpp' -e '^src/book/care/export.cpp' | xargs grep -n 'nlohmann' && complain "JSON belongs into src/words"
git ls-files 'src/words/*' | xargs grep -n '{{"' && complain "JSON in braces in braces: use Object()"

# Older phones do not know it, and stop at it: a script asks another way, a style without it is plainer.
git ls-files 'src/page/web/*.js' | xargs grep -n ':has(' && complain "scripts: a phone that does not know :has() stops there"

# One way to write it.
files=$(git ls-files '*.cpp' '*.h')
# shellcheck disable=SC2086
clang-format --dry-run -Werror $files 2>&1 | head -20 | grep . && complain "format: run clang-format -i on these"

# A numbered list of refusals stays laid out: each number begins a line or follows two blanks. The formatter once
# ran them together, and a list that cannot be read is not kept true.
python3 - $(git ls-files 'src/*.h') <<'LISTS' || complain "lists: lay these out again"
import re, sys
bad = 0
for path in sys.argv[1:]:
    inside, next_one = False, 1
    for at, line in enumerate(open(path, encoding="utf-8"), 1):
        if not line.lstrip().startswith("//"):
            inside = False
            continue
        text = line.strip()[2:]
        if re.search(r"[Rr]efused.*:", text):
            inside, next_one = True, 1
        if not inside:
            continue
        while True:
            laid = re.search(r"(^\s*|:\s+|\s\s)%d [^ \d]" % next_one, text)
            if not laid:
                break
            text = text[laid.end() - 2:]
            next_one += 1
        if next_one > 1 and re.search(r"[^ ] %d [a-z]" % next_one, text):
            print(f"{path}:{at}: refusal {next_one} stands in the middle of a line")
            bad = 1
sys.exit(bad)
LISTS

# Sizes of functions; shown on one of 61 lines and one with seven parameters.
# shellcheck disable=SC2046
python3 tests/functions.py $(git ls-files 'src/*.cpp' 'src/*.h' 'reports/*') || complain "functions: cut these, or say in tests/functions.py why they stay whole"
planted=$(mktemp -d)
{ echo 'int long_one(int a) {'; yes '  a += 1;' | head -n 58; echo '}'; } >"$planted/long.cpp"
echo 'int wide(int a, int b, int c, std::map<int, int> d, int e, int f, int g) { return a; }' >"$planted/wide.cpp"
echo 'struct One { int wide(int, int, const std::function<int(int, int)>&, int, int, int, int) const; };' >"$planted/wide.h"
python3 tests/functions.py "$planted/long.cpp" >/dev/null || complain "functions: one of 60 lines was called too long"
sed -i 's/^}$/  a += 1;\n}/' "$planted/long.cpp"
[ "$(python3 tests/functions.py "$planted/long.cpp" "$planted/wide.cpp" "$planted/wide.h" | wc -l)" = 3 ] || complain "functions: one that was planted was not seen"
rm -r "$planted"

# What is forgotten when a command or an event is added, and SQL above the book; each shown on a planted tree.
python3 tests/house.py || complain "the house: see tests/house.py"

# A file that a comment or a page names is there: whoever follows it finds something.
python3 - <<'NAMED' || complain "named files: these do not exist"
import os, re, subprocess, sys
files = subprocess.check_output(["git", "ls-files"], text=True).split()
there = set(files)
rooms = "exact|figures|text|chance|resale|appraisal|book|answers|words|workbooks|page|commands"
named = re.compile(r"(?<![\w/.-])((?:src|tests|reports|schema|sample-jobs|" + rooms +
                   r")/[\w./{},-]+\.(?:h|cpp|sql|sh|py|toml|txt|\{h,cpp\}))")
bad = 0
for path in files:
    if not path.endswith((".h", ".cpp", ".md")):
        continue
    for at, line in enumerate(open(path, encoding="utf-8"), 1):
        said = line if path.endswith(".md") else line.partition("//")[2]
        for name in named.findall(said):
            one = name.replace(".{h,cpp}", ".h")
            if "NAME" not in name and one not in there and "src/" + one not in there:
                print(f"{path}:{at}: {name}")
                bad = 1
sys.exit(bad)
NAMED

# Every header stands alone.
for header in $(git ls-files 'src/*.h' 'reports/*.h'); do
  echo "$header"
done | xargs -P 2 -I{} sh -c 'g++ -std=c++20 -fsyntax-only -Isrc -I. -isystem /usr/include/eigen3 -x c++ {} 2>&1 | sed "s|^|{}: |" | grep -m3 -E "error" ' | grep . && complain "headers: these do not compile alone"
grep -rnE 'TODO|FIXME' src reports schema tests --include=*.cpp --include=*.h --include=*.sql --include=*.sh --include=*.py | grep -v 'tests/source.sh' && complain "left open"
[ "$bad" = 0 ] && echo "$(echo "$files" | wc -l) files read: layout, arrows, money, format, headers"
exit "$bad"
