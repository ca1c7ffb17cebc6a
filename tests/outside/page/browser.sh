#!/bin/sh
# The page in a browser: looks, names, keys, taps, the main flow, the outbox.
#
#   browser.sh PROGRAM [--long]
#
# Installs axe-core (MPL-2.0; for the tests alone) below .build, at one version and with its SHA-256 looked at. Ends with
# status 1 where one of the tests failed; each runs in namespaces of its own and leaves nothing behind.
set -eu
cd "$(dirname "$0")/../../.."
program=$1
kills="--kills 10 --tabs 2 --browsers 1"
[ "${2:-}" != --long ] || kills="--kills 50 --tabs 10 --browsers 5"
version=4.14.1
sum=29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c
export NONRUNNER_AXE="$PWD/.build/axe/node_modules/axe-core/axe.min.js"
[ -e "$NONRUNNER_AXE" ] || npm install --prefix .build/axe --no-audit --no-fund --ignore-scripts "axe-core@$version"
echo "$sum  $NONRUNNER_AXE" | sha256sum --check --quiet
failed=0
for test in looks names keys taps flows away; do
  /usr/bin/python3 "tests/outside/page/$test.py" "$program" || failed=1
done
# shellcheck disable=SC2086
/usr/bin/python3 tests/outside/page/outbox.py "$program" $kills || failed=1
exit $failed
