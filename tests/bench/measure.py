#!/usr/bin/env python3
"""Runs two commands alternately and compares the medians of their wall times.

usage: measure.py RUNS OUTPUT_FILE -- COMMAND… -- FLOOR_COMMAND…
"""
import os
import shutil
import statistics
import subprocess
import sys
import time

runs, output = int(sys.argv[1]), sys.argv[2]
words = sys.argv[4:]
split = words.index("--")
commands = {"issue": words[:split], "floor": words[split + 1:]}
wall, cpu, peak = ({name: [] for name in commands} for _ in range(3))

for number in range(runs + 1):
    for name, command in commands.items():
        if name == "issue":
            shutil.rmtree(os.environ["XDG_CACHE_HOME"], ignore_errors=True)  # nothing from the run before
            if os.path.exists(output):
                os.remove(output)  # a sealed report is not overwritten
        started = time.monotonic()
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        took = time.monotonic() - started
        if status != 0:
            sys.exit(f"{name}: exit {os.waitstatus_to_exitcode(status)}")
        if number == 0:
            continue  # the first run fills the page cache
        wall[name].append(took)
        cpu[name].append(usage.ru_utime + usage.ru_stime)
        peak[name].append(usage.ru_maxrss / 1024)

for name in commands:
    print(f"{name}: {statistics.median(wall[name]):.2f} s wall ({min(wall[name]):.2f} to {max(wall[name]):.2f}), "
          f"{statistics.median(cpu[name]):.2f} s processor, {max(peak[name]):.0f} MiB at most")
print(f"ratio of wall times {statistics.median(wall['issue']) / statistics.median(wall['floor']):.3f} (target 1.25), "
      f"of processor times {statistics.median(cpu['issue']) / statistics.median(cpu['floor']):.3f}")
print(f"peak memory of issue {max(peak['issue']):.0f} MiB (target 160)")
print(f"report {os.path.getsize(output) / 1e6:.1f} MB")
