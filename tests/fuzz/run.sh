#!/bin/sh
# Feeds every reader of what comes from outside with made-up inputs, under the address and undefined-behaviour sanitizers:
#   tests/fuzz/run.sh [INPUTS FOR EACH READER] [READER...]     (each reader at most $FUZZ_SECONDS seconds, else 20)
# Begins from the kept inputs in tests/fuzz/corpus/ and adds nothing to them. An input that breaks a reader is left in
# .build/fuzz/found/, and the status is 1: keep it in the corpus with the mend.
set -eu
cd "$(dirname "$0")/../.."
inputs=${1:-20000}
[ $# -gt 0 ] && shift
readers=${*:-$(cd tests/fuzz && ls ./*.cpp | sed 's|^./||; s|\.cpp$||')}
# shellcheck disable=SC2046,SC2086
sh tests/sanitized.sh $(for reader in $readers; do echo "fuzz_$reader"; done)
mkdir -p .build/fuzz/found
failed=0
for reader in $readers; do
  grown=$(mktemp -d)
  # Each event's example as well, so that a new one is made up from at once.
  [ "$reader" != events ] || python3 - "$grown" <<'EXAMPLES'
import re, sys
rows = re.findall(r'\bword<\w+>\(\s*"([^"]+)",.*?R"\((.*?)\)"', open("src/book/events/post.cpp").read(), re.S)
assert len(rows) > 30, rows
for number, (name, keys) in enumerate(rows):
    with open(f"{sys.argv[1]}/example-{number}", "w") as file:
        file.write(f'event = [{{ do = "{name}", date = 2026-04-05, {keys} }}]\n')
EXAMPLES
  kept=tests/fuzz/corpus/$reader
  [ -d "$kept" ] || kept=
  # shellcheck disable=SC2086
  if .build/sanitizers/fuzz_$reader -runs="$inputs" -max_total_time="${FUZZ_SECONDS:-20}" -max_len=65536 -dict=tests/fuzz/found.dict -timeout=30 -rss_limit_mb=4096 -print_final_stats=1 \
    -artifact_prefix=.build/fuzz/found/$reader- "$grown" $kept >.build/fuzz/$reader.log 2>&1; then
    ran=$(sed -n 's/^stat::number_of_executed_units: *//p' .build/fuzz/$reader.log)
    echo "$reader: $ran inputs, nothing found, $(ls "$grown" | wc -l) that reach something new"
    [ "${ran:-0}" -gt 0 ] || failed=1
  else
    echo "$reader: FOUND SOMETHING"
    tail -n 40 .build/fuzz/$reader.log
    failed=1
  fi
  rm -rf "$grown"
done
exit $failed
