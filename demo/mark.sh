#!/usr/bin/env bash
# The whole demo out of three things: the survey as it was started (started.xml), the photos, and what the marking page
# saved (marks.xml). Makes the page as well, in out/marked/marking.html, to be looked at in any browser.
# Needs build/rigdeed, as run.sh makes it.
#
# usage: demo/mark.sh
set -euo pipefail
cd "$(dirname "$0")/.."
rigdeed=build/rigdeed
rm -rf out/marked
mkdir -p out/marked
cp -r demo/photos out/marked/
cp demo/started.xml out/marked/survey.xml

printf '== rigdeed mark: the page\n'
"$rigdeed" mark out/marked/survey.xml

printf '\n== rigdeed mark --take: what it saved\n'
"$rigdeed" mark out/marked/survey.xml --take demo/marks.xml | tail -n 3

printf '\n== rigdeed check: complete, as demo/survey.xml is\n'
"$rigdeed" check out/marked/survey.xml | sed -n 1,4p
"$rigdeed" check --json out/marked/survey.xml | grep -v '"file"' >out/marked/taken.json
"$rigdeed" check --json demo/survey.xml | grep -v '"file"' | cmp - out/marked/taken.json
echo "the same to the last word"
