#!/bin/sh
# A shop in which every list of every workbook has a row: no column of any of them stays empty (columns.py).
#   every_column.sh PROGRAM FOLDER
set -eu
program=$1
out=$2
here=$(cd "$(dirname "$0")" && pwd)
samples=$here/../../sample-jobs
rm -rf "$out"
mkdir -p "$out"
export NONRUNNER_BOOK="$out/shop.book"
sed -e 's/^tag *= .*/tag = "teal"/' -e 's/^hour  .*/hour = 22/' "$samples/sprat/job.toml" >"$out/teal.toml"
# An invented number with a right check digit.
sed -e 's/^tag *= .*/tag = "pip"/' -e 's/^vin .*/vin = "0ZZZZ00Z1AZ000017"/' "$samples/sprat/job.toml" >"$out/pip.toml"
cp "$here/every_column.toml" "$out/events.toml"
"$program" start "$NONRUNNER_BOOK" >/dev/null
"$program" set dealer-limit 3 >/dev/null
for events in "$samples/sprat/events.toml" "$samples/drayman/events.toml" "$out/events.toml"; do
  "$program" post "$events" >/dev/null 2>&1 || "$program" post "$events"
done
for tag in sprat drayman pip teal; do "$program" workbook profit $tag "$out/$tag-profit.xlsx" >/dev/null; done
for tag in sprat teal; do "$program" workbook job $tag "$out/$tag-job.xlsx" >/dev/null; done
for year in 2025 2026; do "$program" workbook year $year "$out/year-$year.xlsx" >/dev/null; done
"$program" workbook shopping "$out/shopping.xlsx" >/dev/null
for job in sprat/job drayman/job troupe/job sprat/by-comparables drayman/rot-as-trouble; do
  "$program" appraise "$samples/$job.toml" --workbook "$out/appraisal-$(echo $job | tr / -).xlsx" >/dev/null
done
/usr/bin/python3 "$here/columns.py" "$out"/*.xlsx
