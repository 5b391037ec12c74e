#!/usr/bin/env bash
# Branches of src/verify and src/crypto that the unit tests take: each condition of the source, true and false, by
# clang's coverage. What memory or OpenSSL alone could cause, or an earlier check makes impossible, is marked "not
# reached: why" in the source, on the line of the condition or the one above, and is left out, as are the conditions of
# must(…), which OpenSSL breaks for want of memory only; how many is told. Not run in CI. Takes the objects of build/ for all else.
#
# usage: tests/coverage.sh [-v]   -v names the branches never taken
# Needs clang-16 and llvm-16.
set -uo pipefail
cd "$(dirname "$0")/.."
repository=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
ninja -C build unit_tests >/dev/null || exit 1

compile() {
  clang++-16 -std=c++20 -O0 -fprofile-instr-generate -fcoverage-mapping -Isrc -c "$1" -o "$work/$(tr / - <<<"$1").o"
}
export -f compile
export work
printf '%s\n' src/verify/*.cpp src/crypto/*.cpp | xargs -P 2 -I{} bash -c 'compile {}' || exit 1
# shellcheck disable=SC2046
clang++-16 -fprofile-instr-generate "$work"/*.o $(find build/tests/CMakeFiles/unit_tests.dir -name '*.o') build/libcore.a \
  $(pkg-config --libs libcrypto exiv2 lcms2 pugixml zlib libheif libqrencode zxing) -ljpeg -lpng16 -lhpdf -lpthread -o "$work/unit_tests" || exit 1
# A file of counts a process: the verifier's child has its own.
LLVM_PROFILE_FILE="$work/%p.profraw" "$work/unit_tests" -tce="*may differ*" -sf="*/tests/verify/*,*/tests/crypto/*,*/tests/seal/*" | tail -n 3
llvm-profdata-16 merge "$work"/*.profraw -o "$work/counts" || exit 1
llvm-cov-16 export "$work/unit_tests" -instr-profile="$work/counts" >"$work/coverage.json" 2>/dev/null
python3 - "$repository" "$work/coverage.json" "${1:-}" <<'PY'
import json, sys
root, verbose = sys.argv[1] + "/src/", sys.argv[3] == "-v"
sources, branches = {}, {}  # a place in a file: how often true, how often false, over all instances of a template
for file in json.load(open(sys.argv[2]))["data"][0]["files"]:
    if not file["filename"].startswith(root):
        continue
    name = file["filename"].removeprefix(root)
    sources[name] = open(file["filename"]).read().splitlines()
    for line, column, _, _, true, false, *_ in file["branches"]:
        for side, count in (("true", true), ("false", false)):
            branches[(name, line, column, side)] = branches.get((name, line, column, side), 0) + count
def left_out(name, line):
    """Marked, or a condition of must(…), which fails for want of memory only."""
    if any("not reached:" in one for one in sources[name][max(0, line - 2):line]):
        return True
    for one in reversed(sources[name][max(0, line - 5):line]):
        if "must(" in one:
            return True
        if ";" in one and one is not sources[name][line - 1]:
            return False
    return False


for folder in ("verify/", "crypto/"):
    mine = {at: count for at, count in branches.items() if at[0].startswith(folder)}
    kept = {at: count for at, count in mine.items() if not left_out(at[0], at[1])}
    reached = sum(count > 0 for count in kept.values())
    print(f"src/{folder} branches {reached} of {len(kept)} ({100 * reached / max(1, len(kept)):.1f} %); {len(mine) - len(kept)} left out as not reached")
    if verbose:
        for at in sorted(at for at, count in kept.items() if count == 0):
            line = sources[at[0]][at[1] - 1]
            print(f"  {at[0]}:{at[1]}:{at[2]} never {at[3]}: {line[at[2] - 1:].strip()[:70]}")
PY
