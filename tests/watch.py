#!/usr/bin/env python3
"""`rigdeed check --watch`: checks again when the survey file is written, replaced, wrong for a moment or gone, and when
photos come; not when other files change.

usage: watch.py PROGRAM REPOSITORY
Prints "N passed, N failed".
"""
import os, queue, shutil, signal, subprocess, sys, tempfile, threading, time

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-watch-")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


shutil.copytree(repository + "/demo/photos", work + "/photos")
shutil.copy(repository + "/demo/survey.xml", work)
survey = work + "/survey.xml"
with open(survey, encoding="utf-8") as file:
    whole = file.read()

watcher = subprocess.Popen([program, "check", "survey.xml", "--watch"], cwd=work, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
                           env=dict(os.environ, XDG_CACHE_HOME=work + "/cache"),
                           preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL))  # a shell's background ignores it
lines = queue.Queue()
threading.Thread(target=lambda: [lines.put(line) for line in watcher.stdout], daemon=True).start()


def said(seconds=30):
    """All that is printed until it waits again; nothing if it does not say so in time."""
    told, end = "", time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            told += lines.get(timeout=max(end - time.monotonic(), 0.01))
        except queue.Empty:
            break
        if "waiting for changes; Ctrl-C ends" in told:
            return told
    return ""


def says(text):
    """Of any time that it checks again: one change may be seen as two."""
    while told := said():
        if text in told:
            return True
    return False


def write(text):
    with open(survey, "w", encoding="utf-8") as file:
        file.write(text)


expect(says("complete: ready"), "it checks at once, and waits")
with open(work + "/notes.txt", "w") as file:
    file.write("of no account")
with open(work + "/photos/.hidden", "w") as file:
    file.write("of no account")
expect(not said(1.5), "another file beside the survey, or a hidden one, starts nothing")
shutil.copy(work + "/photos/A0001.jpg", work + "/photos/Z0001.jpg")
expect(says("photo \"Z0001.jpg\""), "a photo that comes is told, and belongs to nothing yet")
os.remove(work + "/photos/Z0001.jpg")
expect(says("complete: ready"), "gone again: complete")
write(whole.replace("</rig-survey>", ""))
expect(says("is still open"), "a survey that is half written is said, and waited for")
with open(work + "/new.xml", "w", encoding="utf-8") as file:
    file.write(whole)
os.replace(work + "/new.xml", survey)
expect(says("complete: ready"), "replaced by another file of its name, as editors do")
os.remove(survey)
expect(says("cannot open"), "gone: said")
write(whole)
expect(says("complete: ready"), "and back")
os.makedirs(work + "/photos/later")
shutil.copy(work + "/photos/A0002.jpg", work + "/photos/later/Z0002.jpg")
expect(says("Z0002.jpg"), "a photo in a new folder counts, too")
watcher.send_signal(signal.SIGINT)
expect(watcher.wait(timeout=10) != 0, "Ctrl-C ends it")

answer = subprocess.run([program, "check", survey, "--watch", "--json"], capture_output=True, text=True)
expect(answer.returncode == 2 and "--watch" in answer.stderr, "--watch with --json is refused")
shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
