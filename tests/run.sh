#!/bin/sh
# Sets up a fresh Debian 12 machine, builds, and runs every test: plain, under the address and undefined-behaviour
# sanitizers, and against other programs. Ends with "N passed, N failed"; status 1 where one failed. Nothing is skipped.
#   tests/run.sh          what every change has to pass
#   tests/run.sh --long   the same with many more random jobs, stories and made-up inputs, for a release: some hours
long=
case "$#:${1:-}" in
  0:) ;;
  1:--long) long=1; export NONRUNNER_LONG=1 FUZZ_SECONDS=1800 ;;
  *) echo "$0: found \"$*\", expected nothing or --long" >&2; exit 2 ;;
esac
. "$(dirname "$0")/../sample-jobs/setup.sh"
# shellcheck disable=SC2086
need $build_packages sqlite3 clang-format python3 python3-openpyxl python3-uno python3-numpy libreoffice-calc-nogui poppler-utils fonts-dejavu-core fonts-liberation fonts-crosextra-carlito clang-14 libclang-rt-14-dev util-linux dpkg-dev mmdebstrap zsh fish mandoc python3-icalendar iproute2 chromium chromium-driver python3-selenium libnss3-tools openssl
command -v npm >/dev/null || need npm
work=$(mktemp -d)
: >"$work/results"
# Two lanes of steps run beside each other, each on a core of its own: what one step says is kept apart from the other's.
lane=plain
step() {
  name=$1
  shift
  echo "running: $name"
  began=$(date +%s)
  if "$@" >.build/step-$lane.log 2>&1; then
    result="passed: $name ($(($(date +%s) - began)) s)
$(tail -n "${tail_lines:-3}" .build/step-$lane.log | sed 's/^/    /')"
  else
    result="FAILED: $name ($(($(date +%s) - began)) s)
$(tail -n 120 .build/step-$lane.log | sed 's/^/    /')"
  fi
  printf '%s\n' "$result"
  echo "${result%%:*}" >>"$work/results"
}
program=$PWD/.build/plain/nonrunner

CMAKE_OPTIONS=-DNONRUNNER_STRICT=ON # here, and where a change is checked, a warning is an error
echo "building the program and its tests (most of the time on a first run)"
build plain nonrunner tests bench_poster
stories=200 entries=30000
[ -z "$long" ] || { stories=5000; entries=100000; }

under_sanitizers() {
  lane=sanitizers
  renice -n 10 -p "$(sh -c 'echo $PPID')" >/dev/null # signals have to be heard in time in the other lane
  step "the build with sanitizers" sh tests/sanitized.sh nonrunner tests fuzz
  step "the tests, under sanitizers" .build/sanitizers/tests
  step "hostile requests to the page, under sanitizers" python3 tests/outside/page/abuse.py "$PWD/.build/sanitizers/nonrunner" "$work/abuse-sanitized" sanitized
  tail_lines=14 step "every reader fuzzed" sh tests/fuzz/run.sh ${long:+400000}
}
echo "the same under sanitizers, beside the checks that need one core"
under_sanitizers &
beside=$!
# Where both lanes have ended there is nothing to kill; under set -e that would make the end of a good run a failure.
trap 'pkill -P "$beside" 2>/dev/null || true; kill "$beside" 2>/dev/null || true; rm -rf "$work"' EXIT
trap 'exit 130' INT TERM

step "the tests, plain" env NONRUNNER_STORIES=$stories .build/plain/tests
step "the source reads as agreed" sh tests/source.sh
step "the safeguards of the build, read back from the program" python3 tests/outside/programs/hardened.py "$program"
step "installed, packaged, unpacked and run from there" sh tests/outside/programs/installed.sh .build/plain "$work/installed"
step "a paper typed at a terminal" python3 tests/outside/programs/asked.py "$program" "$work/asked"
step "the calendar judged by another program" /usr/bin/python3 tests/outside/programs/last_days.py "$program" "$work/calendar"
step "workbooks judged by another program" bash tests/outside/workbooks.sh .build/plain/tests
step "the sample jobs' workbooks judged by another program" sh tests/outside/sample_workbooks.sh "$program" "$work/workbooks"
step "killed while posting, and many posting at once" python3 tests/outside/programs/killed.py "$program" .build/plain/bench_poster
step "a book of many entries, exported and made again" /usr/bin/python3 tests/outside/programs/made_again.py "$program" --entries "$entries"
step "a full disk, missing permissions, an interruption" python3 tests/outside/programs/hostile.py "$program" "$work/hostile"
step "small files that could take minutes, and signals" python3 tests/outside/programs/small_files.py "$program" "$work/small"
tail_lines=20 step "the page in a browser" sh tests/outside/page/browser.sh "$program" ${long:+--long}
step "hostile requests to the page" python3 tests/outside/page/abuse.py "$program" "$work/abuse"
step "who may look at the page" python3 tests/outside/page/secure.py "$program" "$work/secure"
wait "$beside" || echo "FAILED" >>"$work/results" # each of its steps has said so; this, where it ended before its time
passed=$(grep -c passed "$work/results" || true)
failed=$(grep -c FAILED "$work/results" || true)
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
