#!/bin/sh
# Sets up a fresh Debian 12 machine, builds, and does the main job on the sample jobs: the job "sprat" from its first event
# to the profit workbook. Everything that it makes lies below .build/sample.
. "$(dirname "$0")/setup.sh"
# shellcheck disable=SC2086
need $build_packages
echo "building (on two cores some minutes the first time, seconds after that)"
build plain nonrunner
nonrunner=$PWD/.build/plain/nonrunner
out=$PWD/.build/sample
rm -rf "$out"
mkdir -p "$out"
export NONRUNNER_BOOK="$out/shop.book"

say() { printf '\n$ %s\n' "$*"; "$@"; }
PATH=$PWD/.build/plain:$PATH
say nonrunner start "$NONRUNNER_BOOK" --currency USD --distance mi
say nonrunner appraise sample-jobs/sprat/job.toml
say nonrunner appraise sample-jobs/sprat/job.toml --seen "combustion gas in the coolant=no change" --offer 1050
nonrunner appraise sample-jobs/sprat/job.toml --workbook "$out/sprat-appraisal.xlsx" >/dev/null
say nonrunner post sample-jobs/sprat/events.toml
say nonrunner show sprat --on 2025-03-09
say nonrunner show sprat
say nonrunner show sprat --detail
say nonrunner go-on sprat --file sample-jobs/sprat/go-on.toml --date 2025-03-09
say nonrunner post sample-jobs/drayman/events.toml
say nonrunner vehicles
say nonrunner purses
say nonrunner check
say nonrunner workbook profit sprat "$out/sprat-profit.xlsx"
printf '\nthe book:               %s\nthe profit workbook:    %s\nthe appraisal workbook: %s\n' "$NONRUNNER_BOOK" "$out/sprat-profit.xlsx" "$out/sprat-appraisal.xlsx"
printf 'the program:            %s\n' "$nonrunner"
printf '\nThis was a book of invented cars. For your own: nonrunner start, after cmake --install .build/plain (README).\n'
