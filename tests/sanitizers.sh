#!/usr/bin/env bash
# The suite under AddressSanitizer and UndefinedBehaviorSanitizer: unit tests, command line; then each fuzz target with
# libFuzzer from its seeds, for a minute, a hang being more than three seconds.
#
# usage: tests/sanitizers.sh [SECONDS_A_TARGET]
# Each run begins with the same random numbers; RIGDEED_FUZZ_SEED=N gives others, for longer runs by hand.
# Prints what failed; the last line is "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/.."
export LC_ALL=C.UTF-8 ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1
export LSAN_OPTIONS=suppressions=$PWD/tests/leaks.txt:print_suppressions=0
source tests/counting.sh
seconds=${1:-60}
build=build-sanitized
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

expect "dependencies install" tests/dependencies.sh sanitizers
launcher=()
if command -v ccache >/dev/null; then launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi
expect "configures" cmake -S . -B $build -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_CXX_FLAGS_RELWITHDEBINFO="-O1 -gline-tables-only" -DCMAKE_UNITY_BUILD=ON \
  -DCMAKE_CXX_COMPILER=clang++-16 "${launcher[@]}" -DRIGDEED_SANITIZE=ON -DRIGDEED_FUZZ=ON
targets=(survey photo structure cms timestamp verify record register templates heif marks works store before)
expect "builds" cmake --build $build --target rigdeed unit_tests "${targets[@]/#/fuzz_}"
if [ "$failed" -gt 0 ]; then conclude; exit 1; fi

export XDG_CACHE_HOME=$work/cache  # no copies of earlier runs

# unit_tests FIRST LAST: those in between, as doctest counts them.
unit_tests() {
  local code=0 log=$work/unit-$1
  $build/tests/unit_tests --no-colors=true -tce="$left_out" --first="$1" --last="$2" >"$log" 2>&1 || code=$?
  if [ $code -ne 0 ]; then grep -v '^\[doctest\]' "$log" | tail -n 40; fi
  sed -n -E 's/^\[doctest\] test cases: *[0-9]+ \| *([0-9]+) passed \| *([0-9]+) failed.*/\1 passed, \2 failed/p' "$log"
  return $code
}
# Left to the plain build: flips of every byte, and sweeps through what other cases go through once.
left_out="*may differ*,*no bit*,*with none to eighty findings*,*adding a bad sign to any other*,*another program hears*,*an edit followed by its inverse*"
cases=$($build/tests/unit_tests --no-colors=true -tce="$left_out" --count | sed -n -E 's/.*passing the current filters: *([0-9]+).*/\1/p')
expect "the unit tests are counted" test "${cases:-0}" -gt 500
begin "unit tests, the first half" unit_tests 1 $((cases / 2))
begin "unit tests, the second half" unit_tests $((cases / 2 + 1)) "$cases"
begin "cli.py" python3 tests/cli.py $build/rigdeed .
begin "timestamp.py" python3 tests/timestamp.py $build/rigdeed .
begin "chain.py" python3 tests/chain.py $build/rigdeed .
collect

# Numbers are the same whoever compiled them: clang's build, hardly optimised, makes the same bytes as g++'s.
[ -x build/rigdeed ] || demo/run.sh >/dev/null 2>&1
add_counts_of "same_compilers.sh" tests/same_compilers.sh build/rigdeed $build/rigdeed

expect "the seeds are made" python3 tests/fuzz/seeds.py $build/rigdeed . "$work/seeds"
fuzz() {
  mkdir -p "$work/$1"
  (cd "$work/$1" && "$OLDPWD/$build/tests/fuzz_$1" -seed="${RIGDEED_FUZZ_SEED:-1}" -max_total_time="$seconds" -timeout=3 -rss_limit_mb=2048 -print_final_stats=1 "$work/$1" "$work/seeds/$1") \
    >"$work/$1.log" 2>&1
  echo $? >"$work/$1.code"
}
for ((i = 0; i < ${#targets[@]}; i += 3)); do  # three at a time
  for target in "${targets[@]:i:3}"; do fuzz "$target" & done
  wait
done
for target in "${targets[@]}"; do
  inputs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$work/$target.log")
  if [ "$(cat "$work/$target.code")" = 0 ]; then pass; else fail "fuzz_$target" "$(tail -n 40 "$work/$target.log")"; fi
  echo "  fuzz_$target: ${inputs:-no} inputs in $seconds s"
done
conclude
