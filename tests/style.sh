#!/usr/bin/env bash
# Form and lint of the source: every file as clang-format leaves it, and clang-tidy silent (.clang-tidy) over the folders
# where what others made is read or checked; the whole source would take too long for each run.
#
# usage: tests/style.sh [FOLDER…]   folders under src/ for clang-tidy, instead of those below
# Needs build/compile_commands.json. Prints what failed; the last line is "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/.."
source tests/counting.sh
folders=("$@")
[ ${#folders[@]} -gt 0 ] || folders=(base record survey marks seal evidence)

mapfile -t files < <(find src tests -name '*.[ch]pp' | sort)
expect "every file is as clang-format leaves it (clang-format-14 -i FILE)" clang-format-14 --dry-run -Werror "${files[@]}"

# One file each time, on all cores: what clang-tidy says of a file goes with that file's name.
lint() {
  local said
  said=$(clang-tidy-14 -p build --quiet --extra-arg=-Wno-unknown-warning-option --warnings-as-errors='*' "$1" 2>/dev/null) && [ -z "$said" ] && exit 0
  printf '%s\n%s\n' "$1" "$said"
  exit 1
}
export -f lint
for folder in "${folders[@]}"; do
  said=$(find "src/$folder" -name '*.cpp' -print0 | xargs -0 -P "$(nproc)" -I{} bash -c 'lint {}')
  if [ -z "$said" ]; then pass; else fail "clang-tidy over src/$folder" "$said"; fi
done
conclude
