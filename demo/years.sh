#!/usr/bin/env bash
# Three years of the demo's yacht: two reports, the works done after the second, the next survey begun from both, and the
# report of this year, which compares. Everything stands in out/years/, or in the folder named. Needs what demo/run.sh
# builds.
set -euo pipefail
cd "$(dirname "$0")/.."
rigdeed=${RIGDEED:-build/rigdeed}
[ -x "$rigdeed" ] || { echo "build it first: demo/run.sh" >&2; exit 2; }
out=${1:-out/years}
rm -rf "$out"
mkdir -p "$out/papers"
secret=$(mktemp -d)
trap 'rm -rf "$secret"' EXIT
head -c 24 /dev/urandom | base64 >"$secret/passphrase"

step() { printf '\n== %s\n' "$1"; }
signer() {
  SOURCE_DATE_EPOCH=$(date -u -d 2020-01-01 +%s) "$rigdeed" --quiet signer new "$secret/$1.p12" --name "$2" --years 30 \
    --passphrase-file "$secret/passphrase" >"$secret/$1.txt"
}
issue() {  # FILE OUTPUT DAY SIGNER OPTION…
  "$rigdeed" --quiet issue "$1" -o "$out/papers/$2.pdf" --issued-on "$3" --signer "$secret/$4.p12" \
    --passphrase-file "$secret/passphrase" "${@:5}"
}
signer surveyor "Ilse Varnhold"
signer rigger "Per Holmen"

for year in 2024 2025; do
  step "the survey of $year"
  python3 demo/years.py survey "$year" "$out/$year"
done
issue "$out/2024/survey.xml" 2024-31 2024-08-22 surveyor
step "its report names the one before: --since"
issue "$out/2025/survey.xml" 2025-77 2025-09-04 surveyor --since "$out/papers/2024-31.pdf"

step "rigdeed start --works: the works list of 2025, answered by the rigger"
SOURCE_DATE_EPOCH=$(date -u -d 2025-10-01 +%s) "$rigdeed" start --works "$out/papers/2025-77.pdf" -o "$out/works"
pdfimages -j "$out/papers/2024-31.pdf" "$secret/picture"  # stand in for what the rigger photographed
mkdir "$secret/pictures"
find "$secret" -maxdepth 1 -name 'picture*.jpg' -size +12k -exec mv {} "$secret/pictures" \;
python3 demo/years.py works "$out/works" "$secret/pictures"
issue "$out/works/works.xml" W-2025-4 2025-10-20 rigger
"$rigdeed" verify "$out/papers/W-2025-4.pdf" --report "$out/papers/2025-77.pdf" || [ $? -eq 5 ]

step "rigdeed start --from: the survey of 2026 begins with what was found and done"
SOURCE_DATE_EPOCH=$(date -u -d 2026-09-01 +%s) "$rigdeed" start --from "$out/papers/2025-77.pdf" "$out/papers/W-2025-4.pdf" -o "$out/2026-started"
grep -o '<repair [^>]*works[^>]*>' "$out/2026-started/survey.xml"

step "the report of 2026, since both"
issue demo/survey.xml 2026-118 2026-09-18 surveyor --since "$out/papers/2024-31.pdf" "$out/papers/2025-77.pdf"
"$rigdeed" verify "$out/papers/2026-118.pdf" --since "$out/papers/2024-31.pdf" "$out/papers/2025-77.pdf" || [ $? -eq 5 ]

step "rigdeed history"
"$rigdeed" history "$out/papers"
