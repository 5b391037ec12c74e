#!/usr/bin/env bash
# The completions in the three shells themselves: commands, options, words of options, plans, kinds, files.
#
# usage: completions.sh PROGRAM FOLDER   (with rigdeed.bash, _rigdeed and rigdeed.fish)
set -uo pipefail
program=$(readlink -f "$1") folder=$(readlink -f "$2")
passed=0 failed=0
count() { if [ "$1" = "$2" ]; then passed=$((passed + 1)); else failed=$((failed + 1)); printf 'FAILED: %s: %s, not %s\n' "$3" "$1" "$2"; fi; }
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
mkdir "$place/papers" && touch "$place/survey.xml"
cd "$place" || exit 1
ln -s "$program" "$place/rigdeed"
export PATH=$place:$PATH

in_bash() {
  # shellcheck disable=SC2016
  bash --norc -c 'source "$0/rigdeed.bash"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _rigdeed; printf "%s\n" "${COMPREPLY[@]}"' "$folder" "$@" 2>/dev/null | sort -u | xargs
}
in_fish() { fish --no-config -c "source $folder/rigdeed.fish; complete -C '$1'" 2>/dev/null | cut -f1 | sort -u | xargs; }
# A zsh of its own with a terminal: what stands on the line after a tab.
in_zsh() {
  zsh -f -c '
    zmodload zsh/zpty
    zpty shell zsh -f -i
    zpty -w shell "PS1=; PROMPT=; fpath=($1 \$fpath); autoload -Uz compinit; compinit -u -D; setopt no_beep; bindkey \"^X\" list-choices; echo re''ady"
    zpty -r -m shell line "*ready*"
    zpty -n -w shell "$2"$'"'\\t'"'
    sleep 0.7
    zpty -n -w shell $'"'\\025'"'
    zpty -w shell "exit"
    out=; while zpty -r shell part; do out+=$part; done
    print -r -- $out' - "$folder" "$1" 2>/dev/null | tr -d '\r'
}

count "$(in_bash rigdeed compa)" compare "bash: a command"
count "$(in_bash rigdeed issue --pap)" --paper "bash: an option"
count "$(in_bash rigdeed issue --paper '')" "a4 letter" "bash: the words of an option"
count "$(in_bash rigdeed start gaff)" gaff-cutter "bash: a plan"
count "$(in_bash rigdeed signs clevis)" clevis-pin "bash: a kind"
count "$(in_bash rigdeed check surv)" survey.xml "bash: a file"
count "$(in_bash rigdeed history pa)" papers "bash: a folder"
count "$(in_bash rigdeed signer n)" new "bash: what a command does"
count "$(in_fish 'rigdeed compa')" compare "fish: a command"
count "$(in_fish 'rigdeed issue --pap')" --paper "fish: an option"
count "$(in_fish 'rigdeed issue --paper ')" "a4 letter" "fish: the words of an option"
count "$(in_fish 'rigdeed start ketc')" ketch "fish: a plan"
count "$(in_fish 'rigdeed signs clevis')" clevis-pin "fish: a kind"
for line in "compa compare a_command" "issue%--pap --paper an_option" "start%ketc ketch a_plan" "signs%clevis clevis-pin a_kind" "check%surv survey.xml a_file"; do
  read -r typed wanted what <<<"$line"
  said=$(in_zsh "rigdeed ${typed//%/ }")
  found=no
  if grep -qF -- "$wanted" <<<"$said"; then found=yes; fi
  count "$found" yes "zsh: $what ($said)"
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
