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
above() {  # above FOLDER FORBIDDEN...: files of FOLDER do not include these
  folder=$1
  shift
  for other in "$@"; do
    grep -rn "#include \"$other/" "$folder" | sed "s|\$|   <- $folder may not know $other|" | grep . && bad=1
  done
  return 0
}
above src/exact text chance resale appraisal book commands reports
above src/text chance resale appraisal book commands reports
above src/chance text resale appraisal book commands reports
above src/resale appraisal book commands reports
above src/appraisal book commands reports
above src/book chance resale appraisal commands reports
above reports text chance resale appraisal book commands

# Money never meets a double.
grep -nE '\b(double|float)\b' src/exact/money.* src/exact/rate.* src/exact/price.* src/exact/spread.* src/exact/decimal.* | grep -v '//.*\(double\|float\)' && complain "src/exact: a double near money"
grep -rnE '\b(double|float)\b' src/book | grep -vE 'margin|ratio|static_cast<double>|//' && complain "src/book: a double near money"

# A big-integer library in a header is paid for in every file.
git ls-files '*.h' | xargs grep -n 'boost/multiprecision' && complain "a header may not include the big integers"

# One way to write it.
files=$(git ls-files '*.cpp' '*.h')
# shellcheck disable=SC2086
clang-format --dry-run -Werror $files 2>&1 | head -20 | grep . && complain "format: run clang-format -i on these"

# Every header stands alone.
for header in $(git ls-files 'src/*.h' 'reports/*.h'); do
  echo "$header"
done | xargs -P 2 -I{} sh -c 'g++ -std=c++20 -fsyntax-only -Isrc -I. -isystem /usr/include/eigen3 -x c++ {} 2>&1 | sed "s|^|{}: |" | grep -m3 -E "error" ' | grep . && complain "headers: these do not compile alone"
grep -rnE 'TODO|FIXME' src reports schema tests --include=*.cpp --include=*.h --include=*.sql --include=*.sh --include=*.py | grep -v 'tests/source.sh' && complain "left open"
[ "$bad" = 0 ] && echo "$(echo "$files" | wc -l) files read: layout, arrows, money, format, headers"
exit "$bad"
