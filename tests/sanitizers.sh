#!/usr/bin/env bash
# The suite under AddressSanitizer and UndefinedBehaviorSanitizer: unit tests, command line, fuzz seeds and their variants.
# Only the flips of every byte are left to the plain build: they take many times as long here.
#
# usage: tests/sanitizers.sh
# Prints what failed; the last line is "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/.."
export LC_ALL=C.UTF-8 ASAN_OPTIONS=abort_on_error=0:detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1
source tests/counting.sh
build=build-asan

expect "dependencies install" tests/dependencies.sh tests
expect "configures" cmake -S . -B $build -G Ninja -DRIGDEED_SANITIZE=ON
expect "builds" cmake --build $build
if [ "$failed" -gt 0 ]; then conclude; exit 1; fi

unit_tests() {
  local code=0 log
  log=$(mktemp)
  $build/tests/unit_tests --no-colors=true -tce="*may differ*,*no bit*" >"$log" 2>&1 || code=$?
  if [ $code -ne 0 ]; then grep -v '^\[doctest\]' "$log" | tail -n 40; fi
  sed -n -E 's/^\[doctest\] test cases: *[0-9]+ \| *([0-9]+) passed \| *([0-9]+) failed.*/\1 passed, \2 failed/p' "$log"
  rm -f "$log"
  return $code
}
add_counts_of "unit tests" unit_tests
add_counts_of "cli.py" python3 tests/cli.py $build/rigdeed .
add_counts_of "fuzz seeds" tests/fuzz.sh 300 $build
conclude
