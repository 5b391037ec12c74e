#!/usr/bin/env python3
"""The marking page in Firefox: it opens from a file, keys pair a fitting, what was typed is there again, it saves.
And the check page: a good report, whose key, one that was changed.
Spoken to by Firefox's own remote protocol (Marionette), so that no driver is needed.

usage: firefox_says.py PROGRAM REPOSITORY
Needs firefox-esr. Prints "N passed, N failed".
"""
import json, os, re, shutil, socket, subprocess, sys, tempfile, time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from mark_survey import make

program, repository = map(os.path.abspath, sys.argv[1:3])
work = tempfile.mkdtemp(prefix="rigdeed-firefox-")
passed = failed = 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


class Firefox:
    def __init__(self, port, downloads):
        profile = work + "/profile"
        os.makedirs(profile)
        os.makedirs(downloads)
        settings = {"marionette.port": port, "browser.download.folderList": 2, "browser.download.dir": downloads, "browser.download.alwaysOpenPanel": False,
                    "browser.helperApps.neverAsk.saveToDisk": "application/xml,text/xml", "browser.shell.checkDefaultBrowser": False,
                    "datareporting.policy.dataSubmissionEnabled": False, "app.update.enabled": False}
        with open(profile + "/user.js", "w") as file:
            for name, value in settings.items():
                file.write(f"user_pref({json.dumps(name)}, {json.dumps(value)});\n")
        self.process = subprocess.Popen(["firefox-esr", "--headless", "--no-remote", "--marionette", "--profile", profile],
                                        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=dict(os.environ, HOME=work))
        end = time.time() + 40
        while True:
            try:
                self.socket = socket.create_connection(("127.0.0.1", port), timeout=30)
                break
            except OSError:
                if time.time() > end:
                    raise
                time.sleep(0.2)
        self.number = 0
        self.read()
        self.tell("WebDriver:NewSession", {})

    def read(self):
        head = b""
        while not head.endswith(b":"):
            piece = self.socket.recv(1)
            if not piece:
                raise ConnectionError("Firefox has gone")
            head += piece
        body = b""
        while len(body) < int(head[:-1]):
            body += self.socket.recv(int(head[:-1]) - len(body))
        return json.loads(body)

    def tell(self, name, words):
        self.number += 1
        message = json.dumps([0, self.number, name, words]).encode()
        self.socket.sendall(str(len(message)).encode() + b":" + message)
        _, _, error, result = self.read()
        if error:
            raise RuntimeError(f"{name}: {error.get('message')}")
        return result.get("value") if isinstance(result, dict) else result

    def js(self, text):
        return self.tell("WebDriver:ExecuteScript", {"script": text, "args": []})

    def open(self, path):
        self.tell("WebDriver:Navigate", {"url": "file://" + path})
        self.wait("return document.documentElement.dataset.ready === 'yes'")

    def wait(self, truth):
        end = time.time() + 15
        while time.time() < end:
            if found := self.js(truth):
                return found
            time.sleep(0.05)
        raise TimeoutError(truth)

    def keys(self, text):
        actions = [{"type": kind, "value": key} for key in text for kind in ("keyDown", "keyUp")]
        self.tell("WebDriver:PerformActions", {"actions": [{"type": "key", "id": "keys", "actions": actions}]})

    def close(self):
        self.process.terminate()
        self.process.wait(20)


survey, names = make(program, repository, work + "/ketch", 8, hostile=True)
subprocess.run([program, "mark", survey], check=True, capture_output=True)
free = socket.socket()
free.bind(("127.0.0.1", 0))
port = free.getsockname()[1]
free.close()
firefox = Firefox(port, work + "/saved")
try:
    firefox.open(work + "/ketch/marking.html")
    expect(firefox.js("return document.querySelectorAll('.shot').length") == 8, "it opens, with all photos")
    firefox.keys("fc")
    firefox.wait("return document.querySelector('#view-close .large').naturalWidth > 1000")
    expect(True, "the large picture is that of the folder")
    firefox.wait("return document.querySelector('#amount').textContent !== ''")
    firefox.keys("pb")
    firefox.keys("dusk\ue007")
    firefox.open(work + "/ketch/marking.html")
    expect("Going on" in firefox.js("return document.querySelector('#notice').textContent"), "what was typed is there again")
    firefox.keys("w")
    end = time.time() + 15
    while time.time() < end and not any(name.endswith(".xml") for name in os.listdir(work + "/saved")):
        time.sleep(0.1)
    files = [f"{work}/saved/{name}" for name in os.listdir(work + "/saved") if name.endswith(".xml")]
    expect(len(files) == 1, f"it saves: {os.listdir(work + '/saved')}")
    taken = subprocess.run([program, "mark", survey, "--take", *files], capture_output=True, text=True)
    text = open(survey, encoding="utf-8").read()
    expect(taken.returncode == 0 and f'far="{names[0]}" close="{names[1]}"' in text and 'reason="dusk"' in text, "and it is taken in: " + taken.stderr)
    expect(firefox.js("return document.title") .find("hit") < 0, "nothing of others ran")
    subprocess.run([program, "verify", "--page", "-o", work + "/check.html"], check=True, capture_output=True)
    rows = re.findall(r"^\| `([^`]+\.pdf)`.*\| ([0-9a-f]{64}) \|$", open(repository + "/fixtures/issued/README.md", encoding="utf-8").read(), re.M)
    firefox.open(work + "/check.html")
    altered = work + "/altered.pdf"
    open(altered, "wb").write(open(f"{repository}/fixtures/issued/{rows[0][0]}", "rb").read().replace(b"OutputIntents", b"OutputIntentz"))
    for report, fingerprint, result in [(f"{repository}/fixtures/issued/{name}", print_, "good") for name, print_ in rows] + [(altered, rows[0][1], "bad")]:
        field = firefox.tell("WebDriver:FindElement", {"using": "css selector", "value": "#file"})
        firefox.js(f"document.querySelector('#verdict').replaceChildren(); document.querySelector('#print').value = '{fingerprint}'")
        firefox.tell("WebDriver:ElementSendKeys", {"id": list(field.values())[0], "text": report})
        told = firefox.wait("return document.querySelector('.told')?.className")
        expect(told == "told " + result, f"the check page says of {os.path.basename(report)}: {told}")
finally:
    firefox.close()
shutil.rmtree(work, ignore_errors=True)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
