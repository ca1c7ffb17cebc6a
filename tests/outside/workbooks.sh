#!/bin/sh
# The sample jobs' workbooks, written by the program, judged by an independent spreadsheet program: every formula cell
# recalculated gives the stored cents, a changed input gives what the program itself gives for it, the first sheet prints
# on one page, and the same book gives the same bytes.
#   workbooks.sh PROGRAM FOLDER
set -eu
program=$1
out=$2
here=$(cd "$(dirname "$0")" && pwd)
samples=$here/../../sample-jobs
mkdir -p "$out"
export NONRUNNER_BOOK="$out/shop.book"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" post "$samples/sprat/events.toml" >/dev/null
"$program" post "$samples/drayman/events.toml" >/dev/null
"$program" workbook profit sprat "$out/sprat-profit.xlsx"
"$program" workbook profit drayman "$out/drayman-profit.xlsx"
"$program" workbook profit sprat "$out/again.xlsx"
cmp "$out/sprat-profit.xlsx" "$out/again.xlsx"
/usr/bin/python3 "$here/recalculate.py" "$out/sprat-profit.xlsx" "$out/drayman-profit.xlsx"
/usr/bin/python3 "$here/first_page.py" "$out/sprat-profit.xlsx"
