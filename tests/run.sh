#!/usr/bin/env bash
# Builds rigdeed and runs every test that needs nothing but Debian 12's packages, installing what is missing.
# Prints what failed; the last line is "N passed, N failed".
#
# usage: tests/run.sh
# RIGDEED_REAL_PHOTOS may name a folder with photos from real cameras.
set -uo pipefail
cd "$(dirname "$0")/.."
export LC_ALL=C.UTF-8
source tests/counting.sh
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
rigdeed=$PWD/build/rigdeed

build() {
  local first=()
  [ -f build/CMakeCache.txt ] || first=(-G Ninja -DCMAKE_BUILD_TYPE=Release)
  if [ ! -f build/CMakeCache.txt ] && command -v ccache >/dev/null; then first+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi
  cmake -S . -B build "${first[@]}" -DRIGDEED_WERROR=ON && cmake --build build
}

stage() { printf '== %s\n' "$1"; }

stage "dependencies and build"
mkdir -p out
expect "dependencies install" tests/dependencies.sh tests
if build >out/build.log 2>&1; then pass; else
  fail "the build, warnings being errors" "$(tail -n 40 out/build.log)"
  conclude
  exit 1
fi

export XDG_CACHE_HOME=$work/cache  # no copies of earlier runs

# doctest closes with "[doctest] test cases:  123 |  123 passed | 0 failed | 0 skipped".
unit_tests() {
  local code=0 counts
  RIGDEED_ALL_BITS=1 build/tests/unit_tests --no-colors=true >"$work/unit" 2>&1 || code=$?
  grep -v '^\[doctest\]' "$work/unit" | tail -n 60
  counts=$(sed -n -E 's/^\[doctest\] test cases: *[0-9]+ \| *([0-9]+) passed \| *([0-9]+) failed.*/\1 passed, \2 failed/p' "$work/unit")
  echo "${counts:-the unit tests ended with exit $code}"
  return "$code"
}

# What the tests verify is kept for the check page, which must say the same of it.
export RIGDEED_KEEP_EXAMINED=$work/kept
mkdir "$RIGDEED_KEEP_EXAMINED"

stage "tests of the source"
begin "unit tests" unit_tests
begin "style.sh" tests/style.sh
begin "survey_mutations" build/tests/survey_mutations
begin "house_rules.py" tests/house_rules.py
begin "figures.py" tests/figures.py
begin "docs/trade.md is current" python3 docs/make_trade.py --check
begin "pairing" build/tests/pairing_bars
begin "fuzz.sh" tests/fuzz.sh
collect

stage "tests of the program"
begin "cli.py" python3 tests/cli.py "$rigdeed" .
begin "issued.py" python3 tests/issued.py "$rigdeed" .
begin "timestamp.py" python3 tests/timestamp.py "$rigdeed" .
begin "chain.py" python3 tests/chain.py "$rigdeed" .
begin "plans.py" python3 tests/plans.py "$rigdeed" .
begin "climb.py" python3 tests/climb.py "$rigdeed" .
begin "pair.py" python3 tests/pair.py "$rigdeed" .
begin "store.py" python3 tests/store.py "$rigdeed" .
begin "watch.py" python3 tests/watch.py "$rigdeed" .
begin "years.py" python3 tests/years.py "$rigdeed" .
begin "works.py" python3 tests/works.py "$rigdeed" .
begin "mark.py" /usr/bin/python3 tests/mark.py "$rigdeed" .
begin "worked_example.py" python3 tests/worked_example.py "$rigdeed" .
collect

stage "tests of what they left, of failing machines, of photos from real cameras"
begin "check_page.py" /usr/bin/python3 tests/check_page.py "$rigdeed" .
begin "faults.sh" tests/faults.sh
begin "power_cut.py" python3 tests/power_cut.py "$rigdeed" .
begin "shim.py" python3 tests/shim.py "$rigdeed" . build/tests/shim.so
begin "bounds.py" python3 tests/bounds.py "$rigdeed" .
real=${RIGDEED_REAL_PHOTOS:-../shared/photos-real}
if [ -d "$real" ]; then
  begin "real_photos.py" python3 tests/real_photos.py "$rigdeed" "$real"
else
  echo "  real photos: none here; RIGDEED_REAL_PHOTOS may name a folder of them"
fi
collect

stage "the demo"
said=$(demo/run.sh 2>&1 </dev/null)
code=$?
if [ "$code" -eq 0 ]; then pass; else fail "demo/run.sh: exit $code" "$(tail -n 20 <<<"$said")"; fi
expect "demo/run.sh says that the report is as issued" grep -q "^out/demo-report.pdf: as issued by Ilse Varnhold$" <<<"$said"
expect "demo/mark.sh makes the same survey out of photos and marks" demo/mark.sh
marks_are_current() { python3 demo/render/marks.py && git diff --exit-code --stat -- demo/started.xml demo/marks.xml; }
expect "demo/started.xml and demo/marks.xml are those of demo/survey.xml" marks_are_current

stage "other programs about the demo report"
add_counts_of "debian_readers.sh" tests/outside/debian_readers.sh out/demo-report.pdf out/demo-signer.pem
add_counts_of "printed_words.py" tests/outside/printed_words.py "$rigdeed" demo/survey.xml out/demo-report.pdf demo/photos

stage "same input, same bytes"
add_counts_of "same_bytes.sh" tests/outside/same_bytes.sh "$rigdeed"

conclude
