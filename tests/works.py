#!/usr/bin/env python3
"""Works that answer a report, the next survey that begins with them, and the papers of one yacht in a folder.

usage: works.py PROGRAM REPOSITORY
Prints "N passed, N failed".
"""
import json, os, re, shutil, subprocess, sys, tempfile
from pathlib import Path

program, repository = os.path.abspath(sys.argv[1]), Path(sys.argv[2]).resolve()
work = Path(tempfile.mkdtemp(prefix="rigdeed-works-"))
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, epoch="1794000000"):  # 6 November 2026
    environment = dict(os.environ, XDG_CACHE_HOME=str(work / "cache"), RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH=epoch)
    return subprocess.run([program, *map(str, words)], capture_output=True, text=True, env=environment)


def pages_of(path):
    return int(re.search(r"Pages:\s+(\d+)", subprocess.run(["pdfinfo", path], capture_output=True, text=True).stdout).group(1))


def text_of(path):
    return " ".join(subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True).stdout.split())


# The demo of three years.
years = work / "years"
said = subprocess.run([repository / "demo/years.sh", years], capture_output=True, text=True, cwd=repository, env=dict(os.environ, RIGDEED=program, XDG_CACHE_HOME=str(work / "cache")))
expect(said.returncode == 0, "the demo of three years: " + said.stderr[-600:])
papers = years / "papers"
chain = json.loads(run("history", papers, "--json").stdout)["yachts"]
expect(len(chain) == 1 and [one["number"] for one in chain[0]["papers"]] == ["2024-31", "2025-77", "W-2025-4", "2026-118"], "one yacht, her papers in their order")
expect(chain[0]["stands"] == "2026-118" and len(chain[0]["open"]) > 30 and chain[0]["remarks"] == [], "what stands, what is open, no link broken")
expect(chain[0]["look_again"] == "2027-03-15", "and the next date")
expect("open of survey 2026-118" in said.stdout and "looked at again by 15 March 2027" in said.stdout, "the same in words")
answers = {one["number"]: one for one in chain[0]["papers"]}
expect(answers["W-2025-4"]["kind"] == "works-done" and answers["W-2025-4"]["since"] == [answers["2025-77"]["sha256"]], "the follow-up answers the report of 2025")
follow_up = papers / "W-2025-4.pdf"
expect(2 <= pages_of(follow_up) <= 12, f"a follow-up is short: {pages_of(follow_up)} pages")
words = text_of(follow_up)
for wanted in ("Works done W-2025-4", "to survey 2025-77", "Turn the clevis pin head up", "done, 14 October 2025, Per Holmen", "not done", "HR-2291", "vouches for the works", "A qualified rigger, local codes"):
    expect(wanted in words, "the follow-up says: " + wanted)
expect(len(re.findall(r"\bimage\b", subprocess.run(["pdfimages", "-list", follow_up], capture_output=True, text=True).stdout)) == 2, "with its photos of before and after")
report = text_of(papers / "2026-118.pdf")
for wanted in ("Since 2 September 2025 (survey 2025-77):", "What has changed", "Last time, on 2 September 2025", "last time A0", "12.3 mm", "12.5 mm", "12.8 mm", "a year"):
    expect(wanted in report, "the report of this year says: " + wanted)
started = (years / "2026-started/survey.xml").read_text()
expect('<repair on="2025-10-14" done="Turn the clevis pin head up, new split pin" by="Per Holmen, works W-2025-4"/>' in started, "the next survey knows what was done")

# The works list of this year: a form, then answers.
expect(run("signer", "new", work / "r.p12", "--name", "Per Holmen").returncode == 0, "a rigger's identity")
folder = work / "answer"
made = run("start", "--works", papers / "2026-118.pdf", "-o", folder)
expect(made.returncode == 0 and (folder / "report.pdf").read_bytes() == (papers / "2026-118.pdf").read_bytes(), "a folder with the form and the report: " + made.stderr[:300])
expect(run("start", "--works", papers / "2026-118.pdf", "-o", folder).returncode == 2, "a form that is there is not overwritten")
blank = (folder / "works.xml").read_text()
expect(subprocess.run(["xmllint", "--noout", "--schema", repository / "templates/works.xsd", folder / "works.xml"], capture_output=True).returncode == 0, "the form follows the schema")
works = folder / "works.xml"
answer = json.loads(run("check", works, "--json").stdout)[0]
expect(answer["kind"] == "works-done" and not answer["complete"] and answer["answer"] == "not-to-be-sailed" and answer["do_not_climb"], "nothing answered, nothing lifted")
items = re.findall(r'<item number="(\d+)"', blank)
expect({gap["item"] for gap in answer["gaps"] if gap["code"] == "not-answered"} == {int(one) for one in items}, "every item is asked for")
expect(run("issue", works, "-o", work / "never.pdf", "--signer", work / "r.p12").returncode == 3 and not (work / "never.pdf").exists(), "and no follow-up issued")

pictures = work / "pictures"
pictures.mkdir()
subprocess.run(["pdfimages", "-j", papers / "2024-31.pdf", pictures / "p"], check=True)
fresh = sorted(one for one in pictures.glob("*.jpg") if one.stat().st_size > 12000)
expect(len(fresh) >= 2 * len(items), f"enough pictures: {len(fresh)} for {len(items)} items")


def answered(done):
    """The form with `done(number)` for each item: an answer, or None for one that is left as it is."""
    text = blank.replace('number="?">', 'number="W-1">', 1).replace('<rigger name="?" firm="?" qualification="?" contact="?"/>', '<rigger name="Per Holmen"/>')

    def fill(item):
        whole, number = item.group(0), int(item.group(1))
        what = done(number)
        if what is None:
            return whole
        photos = ""
        if what in ("yes", "otherwise"):
            place = 2 * items.index(str(number))
            for role, picture in zip("ba", fresh[place:place + 2]):
                shutil.copy(picture, folder / "photos" / f"{role}{number}.jpg")
            photos = f' before="b{number}" after="a{number}"'
        whole = whole.replace('done="?" on="?" before="?" after="?"', f'done="{what}" on="2026-11-04"{photos}').replace(' ?"', '"').replace(' certificate="?"', "")
        return re.sub(r"\?(\s*</item>)", r"As said.\1", whole)

    return re.sub(r'  <item number="(\d+)".*?</item>', fill, text, flags=re.S)


def check(text):
    works.write_text(text)
    said = run("check", works, "--json")
    return said, (json.loads(said.stdout) or [None])[0]


def codes(text):
    return sorted({gap["code"] for gap in check(text)[1]["gaps"]})


verdicts = {one["item"]: one["verdict"] for one in answer["items"]}
needed = {number for number, verdict in verdicts.items() if verdict in ("renew", "rectify")}
all_done = answered(lambda number: "yes" if number in needed else "no")
said, whole = check(all_done)
expect(said.returncode == 0 and whole["complete"] and whole["answer"] == "works-done" and not whole["do_not_climb"], f"all that was to be renewed and rectified is done: {whole['gaps'][:2]}")
for number in sorted(needed):
    one = check(answered(lambda n: ("no" if n == number else "yes") if n in needed else "no"))[1]
    expect(one["answer"] == ("not-to-be-sailed" if verdicts[number] == "renew" else "after-work"), f"item {number} left undone: {one['answer']}")
worse = check(answered(lambda n: "worse" if n == max(needed) else "yes" if n in needed else "no"))[1]
expect(worse["answer"] == "found-worse" and worse["do_not_climb"], "found worse lifts nothing")
stay = re.search(r'<renewed stay="([a-z-]+)" make="1x19" alloy="316" diameter="8 mm"/>', all_done)
expect(stay, "a stay of 8 mm is renewed")
expect(codes(all_done.replace(stay.group(0), stay.group(0).replace("8 mm", "6 mm"))) == ["weaker"], "a thinner strand is weaker")
expect(codes(all_done.replace(stay.group(0), stay.group(0).replace("8 mm", "10 mm"))) == [], "a thicker one is not")
expect(codes(all_done.replace(stay.group(0), stay.group(0).replace('8 mm"', '6 mm" because="a smaller mast"'))) == [], "a reason is taken")
expect(codes(all_done.replace(stay.group(0), "")) == ["no-size"], "without its size it is not complete")
expect(codes(all_done.replace('number="W-1"', 'number="2026-118"')) == ["no-number"], "the number of the report is no number of its own")
expect(codes(all_done.replace('on="2026-11-04"', 'on="2026-11-07"', 1)) == ["other-day"], "a day that is not yet")
expect(codes(re.sub(r' after="a\d+"', "", all_done, count=1)) == ["no-pair"], "no photo of after")
expect(codes(re.sub(r'after="a(\d+)"', r'after="b\1"', all_done, count=1)) == ["same-photo"], "the same photo twice")
shutil.copy(repository / "demo/photos/A0012.jpg", folder / "photos/a0.jpg")
expect(codes(re.sub(r'after="a\d+"', 'after="a0"', all_done, count=1)) == ["old-photo"], "a photo of the report as that of after")
expect(codes(re.sub(r'asks="[^"]*"', 'asks="Look at it"', all_done, count=1)) == ["other-words"], "other words than the report's")
expect(codes(re.sub(r'  <item number="%s".*?</item>\n' % items[0], "", all_done, flags=re.S)) == ["not-answered"], "an item left out")
expect(codes(all_done.replace("</works-done>", '<item number="999" done="no" on="2026-11-04">x</item></works-done>')) == ["no-such-item"], "an item that was never asked for")
said = check(all_done.replace('done="yes"', 'done="perhaps"', 1))[0]
expect(said.returncode == 2 and re.search(r"works\.xml:\d+: ", said.stderr) and "otherwise" in said.stderr, "a wrong word, with its line and what may stand there")

works.write_text(all_done)
paper = work / "W-1.pdf"
for language, sheet in ("en", "a4"), ("de", "letter"), ("es", "a4"), ("fr", "letter"):
    output = paper if language == "en" else work / f"W-{language}.pdf"
    made = run("issue", works, "-o", output, "--signer", work / "r.p12", "--language", language, "--paper", sheet)
    expect(made.returncode == 0, f"a follow-up in {language}: {made.stderr[:300]}")
    told = json.loads(run("verify", output, "--json", "--report", folder / "report.pdf").stdout)[0]
    expect(told["content"]["state"] == "agrees" and told["since"][0]["state"] == "same", f"whose pages can be made anew, and whose report is the very one ({language})")
expect(2 <= pages_of(paper) <= 12, f"with {len(needed)} items done it has {pages_of(paper)} pages")
expect(run("issue", works, "-o", paper, "--signer", work / "r.p12", "--force").returncode == 2, "a sealed follow-up is not overwritten")
expect(run("issue", works, "-o", work / "x.pdf", "--signer", work / "r.p12", "--with-gaps").returncode == 2, "works have no gaps to be issued with")
run("signer", "new", work / "other.p12", "--name", "Somebody Else")
expect(run("issue", works, "-o", work / "x.pdf", "--signer", work / "other.p12").returncode == 2, "nobody seals for the rigger without saying so")
told = run("verify", paper, "--report", papers / "2025-77.pdf")
expect(told.returncode == 4 and "NOT the report that it answers" in told.stdout, "another report is told")
expect("answers survey 2026-118" in run("verify", paper).stdout, "what it answers is said without being asked")
content = bytearray(paper.read_bytes())
refused = 0
for at in range(300, len(content), len(content) // 20):
    broken = bytearray(content)
    broken[at] ^= 4
    (work / "broken.pdf").write_bytes(broken)
    refused += run("verify", work / "broken.pdf").returncode == 4
expect(refused >= 20, f"one bit changed is noticed: {refused}")
shutil.copy(papers / "2025-77.pdf", folder / "report.pdf")
said = run("check", works)
expect(said.returncode == 2 and "is not the report that the works answer" in said.stderr, "another report beside the works is refused")
(folder / "report.pdf").unlink()
expect(run("check", works).returncode == 2, "so is none")

# The next survey: report and follow-ups together.
folder = work / "next"
begun = run("start", "--from", papers / "2026-118.pdf", paper, "-o", folder, epoch="1822000000")
text = (folder / "survey.xml").read_text() if begun.returncode == 0 else ""
expect(begun.returncode == 0 and text.count("works W-1") == len(needed), f"each work is in the history: {begun.stderr[:200]}")
expect(re.search(r'<stay id="%s"[^>]*fitted="2026-11-04 \?" age-source="invoice \?"' % stay.group(1), text), "a renewed stay has the day of the work, to be confirmed")
for sources, what in ((papers / "2025-77.pdf", paper), "the report of another year"), ((paper,), "a follow-up alone"), ((papers / "2026-118.pdf", papers / "2025-77.pdf"), "a report as a follow-up"), ((papers / "2026-118.pdf", work / "broken.pdf"), "a broken one"):
    expect(run("start", "--from", *sources, "-o", work / "never").returncode in (2, 4) and not (work / "never").exists(), "not begun from " + what)
expect(run("compare", papers / "2026-118.pdf", paper).returncode == 2, "a follow-up is no survey to compare")
expect(run("issue", repository / "demo/survey.xml", "-o", work / "x.pdf", "--on-behalf", "--signer", work / "r.p12", "--since", paper).returncode == 2, "nor to be since")

# A folder of papers.
shutil.copy(paper, papers / "W-1.pdf")
chain = json.loads(run("history", papers, "--json").stdout)["yachts"][0]
expect(len(chain["open"]) == len(verdicts) - len(needed) and chain["remarks"] == [], "what the follow-up closed is not open")
os.rename(papers / "2025-77.pdf", work / "away.pdf")
told = run("history", papers)
expect(told.returncode == 0 and told.stdout.count("which is not here") == 2, "a paper that is missing is told by both that rest on it")
broken = bytearray((work / "away.pdf").read_bytes())
broken[len(broken) // 2] ^= 1
(papers / "2025-77.pdf").write_bytes(broken)
told = run("history", papers)
expect(told.returncode == 4 and "NOT A PAPER AS ISSUED" in told.stdout and told.stdout.count("which is not here") == 2, "a changed one breaks the links, and is told")
os.rename(work / "away.pdf", papers / "2025-77.pdf")
shutil.copytree(years / "2025", work / "again")
replacing = (work / "again/survey.xml").read_text().replace('number="2025-77"', 'number="2025-78" replaces="2025-77"')
(work / "again/survey.xml").write_text(replacing)
run("signer", "new", work / "s.p12", "--name", "Ilse Varnhold")
fingerprint = json.loads(run("verify", papers / "2025-77.pdf", "--json").stdout)[0]["signer"]["fingerprint"]
made = run("issue", work / "again/survey.xml", "-o", papers / "2025-78.pdf", "--issued-on", "2025-09-20", "--signer", work / "s.p12", "--replaces", papers / "2025-77.pdf", "--because", "a name was wrong", "--replaced-signer", fingerprint)
expect(made.returncode == 0, "a report that replaces one: " + made.stderr[:300])
remarks = json.loads(run("history", papers, "--json").stdout)["yachts"][0]["remarks"]
expect(sum("had replaced" in one for one in remarks) == 2, f"a replaced report that is still rested on is told: {remarks}")
(work / "again/survey.xml").write_text(replacing.replace("2025-78", "2025-79"))
run("issue", work / "again/survey.xml", "-o", papers / "2025-79.pdf", "--issued-on", "2025-09-21", "--signer", work / "s.p12", "--replaces", papers / "2025-77.pdf", "--because", "a name was wrong", "--replaced-signer", fingerprint)
remarks = json.loads(run("history", papers, "--json").stdout)["yachts"][0]["remarks"]
expect(any("two papers replace one" in one for one in remarks), "so are two that replace one")
(papers / "notes.txt").write_text("no paper")
(papers / "other.pdf").write_text("%PDF-1.4 no paper")
expect(len(json.loads(run("history", papers, "--json").stdout)["others"]) == 1, "what is no paper is told apart")
expect(run("history", work / "nowhere").returncode == 2, "a folder that is not there")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
