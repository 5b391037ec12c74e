# Sourced by the test scripts: counts checks, prints only what failed, closes with "N passed, N failed".
passed=0
failed=0

pass() { passed=$((passed + 1)); }

# fail WHAT [DETAIL]
fail() {
  failed=$((failed + 1))
  printf 'FAILED: %s\n' "$1"
  if [ -n "${2:-}" ]; then printf '%s\n' "$2" | head -n 20 | sed 's/^/    /'; fi
}

# expect WHAT COMMAND…: passes if the command succeeds; what it prints is shown only if it fails.
expect() {
  local what=$1 output
  shift
  if output=$("$@" 2>&1); then pass; else fail "$what" "$output"; fi
}

# expect_silent WHAT COMMAND…: passes if the command succeeds and prints nothing.
expect_silent() {
  local what=$1 output
  shift
  if output=$("$@" 2>&1) && [ -z "$output" ]; then pass; else fail "$what" "$output"; fi
}

# expect_code CODE WHAT COMMAND…: passes if the command exits with CODE; its output is left in $said.
expect_code() {
  local wanted=$1 what=$2 code=0
  shift 2
  said=$("$@" 2>&1) || code=$?
  if [ "$code" -eq "$wanted" ]; then pass; else fail "$what: exit $code, not $wanted" "$said"; fi
}

# Adds what a script counted that closes with "N passed, N failed"; one that does not close so has failed.
add_counts_of() {
  local what=$1 log code=0 counts
  shift
  log=$(mktemp)
  local since=$SECONDS took
  "$@" 2>&1 | tee "$log" | { grep --line-buffered -v -E '^[0-9]+ passed, [0-9]+ failed$' || true; }
  code=${PIPESTATUS[0]}
  took=${took_of_replay:-$((SECONDS - since))}
  counts=$(tail -n 1 "$log" | grep -E '^[0-9]+ passed, [0-9]+ failed$') || counts=
  rm -f "$log"
  if [ -z "$counts" ]; then
    fail "$what did not come to its end (exit $code)"
    return
  fi
  local more_passed=${counts%% *} more_failed=${counts#*, }
  more_failed=${more_failed%% *}
  passed=$((passed + more_passed))
  failed=$((failed + more_failed))
  if [ "$code" -ne 0 ] && [ "$more_failed" -eq 0 ]; then fail "$what exited with $code"; fi
  printf '  %-34s %s of %s, %s s\n' "$what" "$more_passed" "$((more_passed + more_failed))" "$took"
}

# begin WHAT COMMAND…: starts such a script beside another, two at a time; `collect` adds what they counted, in order.
# What else runs in the background is let be.
begun=() begun_jobs=()
running() { jobs -rp | grep -xF -f <(printf '%s\n' "${begun_jobs[@]}"); }
begin() {
  [ ${#begun[@]} -gt 0 ] || logs=$(mktemp -d)
  local now
  while mapfile -t now < <(running) && [ ${#now[@]} -ge 2 ]; do wait -n "${now[@]}" 2>/dev/null || true; done
  local log=$logs/${#begun[@]}
  begun+=("$1")
  shift
  { since=$SECONDS; "$@" >"$log" 2>&1; echo $? >"$log.code"; echo $((SECONDS - since)) >"$log.took"; } &
  begun_jobs+=($!)
}
replay() {
  cat "$logs/$1"
  return "$(cat "$logs/$1.code")"
}
collect() {
  wait "${begun_jobs[@]}" 2>/dev/null || true
  local i took_of_replay
  for i in "${!begun[@]}"; do
    took_of_replay=$(cat "$logs/$i.took")
    add_counts_of "${begun[i]}" replay "$i"
  done
  begun=() begun_jobs=()
  rm -rf "$logs"
}

conclude() {
  printf '%d passed, %d failed\n' "$passed" "$failed"
  [ "$failed" -eq 0 ]
}
