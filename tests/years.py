#!/usr/bin/env python3
"""Year after year: a survey that starts from the last one, and what changed from one to the next.

usage: years.py PROGRAM REPOSITORY
Prints "N passed, N failed".
"""
import json, os, re, shutil, subprocess, sys, tempfile
import xml.etree.ElementTree as ElementTree

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-years-")
name = "{urn:rigdeed:survey:1}"
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, epoch="1822000000"):
    environment = dict(os.environ, XDG_CACHE_HOME=work + "/cache", RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH=epoch)
    return subprocess.run([program, *words], capture_output=True, text=True, env=environment)


def file_of(text, label):
    path = f"{work}/{label}.xml"
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def changed(text, *pairs):
    for old, new in pairs:
        assert text.count(old) == 1, (old, text.count(old))
        text = text.replace(old, new)
    return text


with open(repository + "/fixtures/complete/survey.xml", encoding="utf-8") as file:
    third = file.read()
expect(run("signer", "new", work + "/s.p12", "--name", "Ada Sorrel").returncode == 0, "a signer")
sealed = work + "/year.pdf"
made = run("issue", repository + "/fixtures/complete/survey.xml", "-o", sealed, "--signer", work + "/s.p12")
expect(made.returncode == 0, "a sealed report: " + made.stderr)

# The next survey, from the file and from the sealed report.
for label, source in ("file", repository + "/fixtures/complete/survey.xml"), ("report", sealed):
    folder = f"{work}/from-{label}"
    started = run("start", "--from", source, "-o", folder, epoch="1822000000")
    expect(started.returncode == 0, f"starts from a {label}: {started.stderr}")
    expect(subprocess.run(["xmllint", "--noout", "--schema", repository + "/templates/survey.xsd", folder + "/survey.xml"],
                          capture_output=True).returncode == 0, f"and what it writes follows the schema ({label})")
    old, new = ElementTree.fromstring(third), ElementTree.parse(folder + "/survey.xml").getroot()
    kept = ("id", "kind", "stay", "station", "height", "metal", "side", "mast")
    facts = lambda root: [{key: one.get(key) for key in kept if one.get(key)} for one in root.iter(name + "fitting")]
    expect(facts(new) == facts(old), f"each fitting stands in it as it was ({label})")
    expect([dict(one.attrib) for one in new.iter(name + "stay")] == [dict(one.attrib) for one in old.iter(name + "stay")], f"each stay too ({label})")
    expect([dict(one.attrib) for one in new.iter(name + "absent")] == [dict(one.attrib) for one in old.iter(name + "absent")], f"and what is absent ({label})")
    expect(not list(new.iter(name + "seen")) and not list(new.iter(name + "measured")) and not list(new.iter(name + "other")), f"nothing seen, measured or photographed comes along ({label})")
    expect([one.find(name + "before").get("verdict") for one in new.iter(name + "fitting")] == ["sound"] * 7, f"what was said of each does ({label})")
    past = new.find(f"{name}history/{name}survey")
    expect(past.get("number") == "F-1" and past.get("on") == "2026-10-03" and past.get("by") == "Ada Sorrel", f"the survey before stands in its history ({label})")
    digest = subprocess.run(["sha256sum", sealed], capture_output=True, text=True).stdout.split()[0]
    expect(past.get("sha256") == (digest if label == "report" else None), f"with the digest of its report ({label})")
    answer = run("check", folder + "/survey.xml", "--json")
    gaps = json.loads(answer.stdout)[0]["gaps"]
    expect(answer.returncode == 3 and {gap["code"] for gap in gaps} == {"left-open", "unconfirmed", "not-seen-up", "not-seen-down", "no-photo-pair"},
           f"it lacks what is to be looked at and confirmed, nothing else ({label}): {sorted({gap['code'] for gap in gaps})}")
again = run("start", "--from", sealed, "-o", work + "/from-report")
expect(again.returncode == 2 and "is there already" in again.stderr, "a survey that is there is not overwritten")

with open(sealed, "rb") as file:
    content = bytearray(file.read())
refused = 0
for at in range(200, len(content), len(content) // 25):
    broken = bytearray(content)
    broken[at] ^= 1
    with open(work + "/broken.pdf", "wb") as file:
        file.write(broken)
    answer = run("start", "--from", work + "/broken.pdf", "-o", work + "/never")
    refused += answer.returncode == 4 and "not as issued" in answer.stderr
expect(refused == 26 or refused == 25, f"from a report of which one bit is changed nothing is taken: {refused}")
expect(run("compare", work + "/broken.pdf", repository + "/fixtures/complete/survey.xml").returncode == 4, "nor is it compared")
run("issue", repository + "/fixtures/complete/survey.xml", "--preview", "-o", work + "/preview.pdf")
answer = run("start", "--from", work + "/preview.pdf", "-o", work + "/never")
expect(answer.returncode in (4, 5) and not os.path.exists(work + "/never"), f"nor from a preview: {answer.returncode} {answer.stderr[:200]}")
for words, what in ((["start", "-o", work + "/x"], "nothing to start from"), (["start", "cat", "--from", sealed, "-o", work + "/x"], "two things to start from"),
                    (["start", "--from", sealed, "--set", "a=b", "-o", work + "/x"], "--set with --from")):
    expect(run(*words).returncode == 2 and not os.path.exists(work + "/x"), what + " is refused")

# What the plan asks for by now comes in, to be confirmed: here what the survey before did not list.
lacking = re.sub(r'    <absent kind="(gooseneck|mast-step)".*\n', "", third)
started = run("start", "--from", file_of(lacking, "lacking"), "-o", work + "/added")
added = [one for one in ElementTree.parse(work + "/added/survey.xml").getroot().iter(name + "fitting") if one.find(name + "before") is None]
expect(sorted(one.get("kind") for one in added) == ["gooseneck", "mast-step"] and all(one.get("height").endswith(" ?") for one in added),
       f"fittings that the plan has come in as proposals: {[one.get('kind') for one in added]}")

# Three years of one yacht.
plate_up = '<seen pass="up" at="09:00" far="F1" close="C1"/>'
rust = '<seen pass="up" at="09:00" far="F1" close="C1"><sign code="rust-weep" where="deck">A brown run.</sign></seen>'
crack = '<seen pass="up" at="09:00" far="F1" close="C1"><sign code="crack" where="pin hole">A line.</sign></seen>'
plate_down = '<seen pass="down" at="11:40"/>'
hole = lambda value: (plate_down, plate_down + f'<measured what="hole-diameter" value="{value}"/>')
day = lambda number, on: (('number="F-1"', f'number="{number}"'), ('on="2026-10-03"', f'on="{on}"'))
years = [changed(third, *day("F-24", "2024-10-01"), (plate_up, rust), hole("8.0 mm")),
         changed(third, *day("F-25", "2025-10-01"), (plate_up, rust), hole("8.2 mm")),
         changed(third, *day("F-26", "2026-10-01"), hole("8.7 mm"))]
files = [file_of(text, f"year-{number}") for number, text in enumerate(years)]
compare = lambda *paths: json.loads(run("compare", *paths, "--json").stdout)
of = lambda answer, fitting: next(one for one in answer["fittings"] if one["fitting"] == fitting or one["before"] == fitting)

answer = compare(*files)
plate = of(answer, "plate")
expect([one["number"] for one in answer["surveys"]] == ["F-24", "F-25", "F-26"], "three surveys, oldest first")
expect(plate["not_said"] == ["rust-weep"] and not plate["gone"] and plate["change"] == "better", "a sign that is not mentioned any more is not said to be gone")
# Least squares through (0, 8.0), (1, 8.2), (2, 8.7): (−1·8.0 + 0·8.2 + 1·8.7) / 2 = 0.35 mm a year; by hand, the years
# of 365 days being 365/365.2425 of one.
course = plate["measured"][0]
expect(course["what"] == "hole-diameter" and [one["value"] for one in course["values"]] == [8.0, 8.2, 8.7], "what was measured over the years")
expect(abs(course["difference"] - 0.5) < 1e-9 and abs(course["per_year"] - 0.35 * 365.2425 / 365) < 1e-3, f"the trend is that worked by hand: {course['per_year']}")
expect(of(compare(*files[1:]), "plate")["measured"][0]["per_year"] is None, "of two there is a difference and no trend")
expect(all(one["change"] == "same" for one in answer["fittings"] if one["fitting"] != "plate"), "nothing else changed")
before = compare(files[0], files[1])
expect(of(before, "plate")["still"] == ["rust-weep"] and of(before, "plate")["change"] == "same", "a sign that is still there")

gone = changed(years[2], (plate_up, plate_up + '<before survey="F-25" verdict="watch"><sign code="rust-weep"/></before><gone sign="rust-weep" because="cleaned; the seam was tight"/>'))
expect(of(compare(files[1], file_of(gone, "gone")), "plate")["gone"] == ["rust-weep"], "a sign that is said to be gone")
worse = changed(third, *day("F-26", "2026-10-01"), (plate_up, crack))
answer = compare(files[1], file_of(worse, "worse"))
expect(of(answer, "plate")["change"] == "worse" and of(answer, "plate")["new"] == ["crack"] and of(answer, "plate")["verdict"] == "renew", "worse, by a new sign")
words = run("compare", files[1], work + "/worse.xml").stdout
expect("1 worse" in words and "crack" in words and "worse:" in words, "for people: " + words[:200])

fresh = changed(years[2], ('id="eye"', 'id="thimble-1"'))
answer = compare(files[1], file_of(fresh, "renamed"))
expect(of(answer, "thimble-1")["before"] == "eye" and "place" in of(answer, "thimble-1")["guess"], "a fitting that is called otherwise is found by its place, and that is told")
expect(of(answer, "plate")["guess"] == "", "one found by its id is not a guess")
without = re.sub(r'    <fitting id="eye".*?</fitting>\n', "", years[2], flags=re.S)
answer = compare(files[1], file_of(without, "without"))
expect(of(answer, "eye")["change"] == "gone" and of(answer, "eye")["fitting"] == "", "a fitting that is gone")
expect(of(compare(file_of(re.sub(r'    <fitting id="eye".*?</fitting>\n', "", years[1], flags=re.S), "was-without"), files[2]), "eye")["change"] == "new", "and one that is new")
renewed = changed(years[2], ('fitted="2024-04"', 'fitted="2026-03"'))
answer = compare(files[1], file_of(renewed, "renewed"))
expect(of(answer, "rope")["change"] == "renewed" and of(answer, "head")["change"] == "renewed", f"{of(answer, 'rope')} {of(answer, 'head')} what was fitted after the survey before is renewed: strand and terminals")
expect(of(answer, "plate")["change"] != "renewed", "what they are fastened to is not")
swapped = changed(years[2], ('role="lower-shroud" side="port"', 'role="lower-shroud" side="starboard"'), ('<absent role="lower-shroud" side="starboard"', '<absent role="lower-shroud" side="port"'))
answer = compare(files[1], file_of(swapped, "swapped"))
expect(len([one for one in answer["remarks"] if "side for side" in one]) == 7, "port and starboard exchanged are noticed")

other = changed(years[2], ("GB-ABC00042-A3-99", "GB-ABC00043-A3-99"))
refusal = run("compare", files[1], file_of(other, "other"))
expect(refusal.returncode == 2 and "another yacht" in refusal.stderr and "--other-yacht" in refusal.stderr, "another yacht is refused")
expect(run("compare", files[1], work + "/other.xml", "--other-yacht").returncode == 0, "unless it is meant so")
spelled = changed(years[2], ("GB-ABC00042-A3-99", "gb-abc00042-a3.99"))
answer = run("compare", files[1], file_of(spelled, "spelled"))
expect(answer.returncode == 0, answer.stderr[:300] + "a hull number written otherwise is the same")
refusal = run("compare", files[2], files[1])
expect(refusal.returncode == 2 and "oldest first" in refusal.stderr, "the wrong order is refused")
expect(run("compare", files[1]).returncode == 2, "so is one alone")
expect(compare(files[0], files[1], sealed)["surveys"][2]["signer"] == "Ada Sorrel", "survey files and sealed reports together")

# What was said last time stands on the climb sheet and the marking page, beside the boxes.
with open(work + "/from-file/survey.xml", encoding="utf-8") as file:
    begun = file.read()
with open(work + "/from-file/survey.xml", "w", encoding="utf-8") as file:
    file.write(begun.replace('<before survey="F-1" verdict="sound"/>', '<before survey="F-1" verdict="watch"><sign code="rust-weep"/></before>', 1))
expect(run("climb", work + "/from-file/survey.xml", "-o", work + "/sheet.pdf").returncode == 0, "a climb sheet of the next survey")
words = " ".join(subprocess.run(["pdftotext", "-layout", work + "/sheet.pdf", "-"], capture_output=True, text=True).stdout.split())
expect("last time: watch; rust" in words and words.count("last time: sound") == 6, "it says what was said last time")
expect(run("mark", work + "/from-file/survey.xml", "-o", work + "/mark.html").returncode == 0, "a marking page of the next survey")
with open(work + "/mark.html", encoding="utf-8") as file:
    page = file.read()
expect(page.count("last time: sound") == 6 and page.count("last time: watch; rust") == 1, "so does the page")

# A report since others: on its cover, at each finding, in a chapter; the others named and looked at again.
folder = work + "/since"
shutil.copytree(repository + "/fixtures/complete", folder)
reports = []
for text, on in (years[0], "2024-10-02"), (years[1], "2025-10-02"):
    with open(folder + "/survey.xml", "w") as file:
        file.write(text)
    reports.append(f"{work}/since-{on}.pdf")
    made = run("issue", folder + "/survey.xml", "-o", reports[-1], "--signer", work + "/s.p12", "--with-gaps", "--issued-on", on)
    expect(made.returncode == 0, "a report of before: " + made.stderr[:300])
with open(folder + "/survey.xml", "w") as file:
    file.write(changed(third, hole("8.7 mm")))
plain, since = work + "/plain.pdf", work + "/since.pdf"
issue = lambda output, *words: run("issue", folder + "/survey.xml", "-o", output, "--signer", work + "/s.p12", "--issued-on", "2026-10-04", *words)
expect(issue(plain).returncode == 0, "the same without them")
made = issue(since, "--since", reports[1], reports[0])
expect(made.returncode == 0 and "the report of before: F-24 of 2024-10-01, as issued by Ada Sorrel" in made.stderr, "issued since two, in whatever order they are named: " + made.stderr[:300])
expect(os.path.getsize(since) - os.path.getsize(plain) < 3e6, f"and hardly larger: {os.path.getsize(since) - os.path.getsize(plain)} bytes more")
words = " ".join(subprocess.run(["pdftotext", "-layout", since, "-"], capture_output=True, text=True).stdout.split())
digests = [subprocess.run(["sha256sum", one], capture_output=True, text=True).stdout.split()[0] for one in reports]
for wanted in ("Since 1 October 2025 (survey F-25): 1 better and 1 with a sign of last time that is not mentioned now.", "What has changed", "Open from last time",
               "not mentioned now, gone or overlooked? rust", "+0.50 mm; +0.35 mm a year", digests[0][:4], digests[1][:4], "F-24", "F-25"):
    expect(wanted in words, f"the report says: {wanted}")
expect(all(" ".join(digest[at:at + 4] for at in range(0, 32, 4)) in words and digest[60:] in words for digest in digests), "with the digest of each")
answer = json.loads(run("verify", since, "--json", "--since", *reports).stdout)[0]
expect([(one["number"], one["state"], one["sha256"]) for one in answer["since"]] == [("F-24", "same", digests[0]), ("F-25", "same", digests[1])], f"they are the very reports: {answer['since']}")
expect(answer["content"]["state"] == "agrees", "and its pages can be made anew from what it carries")
told = run("verify", since, "--since", reports[0])
expect(told.returncode == 5 and "byte for byte" in told.stdout and "--since FILE" in told.stdout, "one at hand, one not: " + told.stdout[-400:])
told = run("verify", since, "--since", plain)
expect(told.returncode == 4 and "is NOT one of the reports" in told.stdout, "another report is none of them")
for language, title in ("de", "Was sich geändert hat"), ("es", "Qué ha cambiado"), ("fr", "Ce qui a changé"):
    made = issue(work + f"/since-{language}.pdf", "--since", *reports, "--language", language)
    words = subprocess.run(["pdftotext", work + f"/since-{language}.pdf", "-"], capture_output=True, text=True).stdout
    expect(made.returncode == 0 and title in words and "F-25" in words, f"in {language}")
    expect(json.loads(run("verify", work + f"/since-{language}.pdf", "--json").stdout)[0]["content"]["state"] == "agrees", f"whose pages can be made anew, too ({language})")
for what, words in ("twice the same", ["--since", reports[0], reports[0]]), ("a broken one", ["--since", work + "/broken.pdf"]), ("a survey file", ["--since", files[0]]), ("--other-yacht alone", ["--other-yacht"]):
    answer = issue(work + "/never.pdf", *words)
    expect(answer.returncode != 0 and not os.path.exists(work + "/never.pdf"), f"refused: {what}")
other = changed(changed(third, hole("8.7 mm")), ("GB-ABC00042-A3-99", "GB-ABC00043-A3-99"))
with open(folder + "/survey.xml", "w") as file:
    file.write(other)
answer = issue(work + "/never.pdf", "--since", reports[0])
expect(answer.returncode == 2 and "another yacht" in answer.stderr, "a report of another yacht is refused")
expect(issue(work + "/meant.pdf", "--since", reports[0], "--other-yacht").returncode == 0, "unless it is meant so")

# Nothing heals by not being mentioned.
folder = work + "/heals"
shutil.copytree(repository + "/fixtures/complete", folder)
healing = {"remark": ("watch", 0, "remarks", "sign-not-said"), "gap": ("renew", 3, "gaps", "renewal-not-said")}
for what, (verdict, code, where, row) in healing.items():
    text = changed(third, (plate_up, plate_up + f'<before survey="F-25" verdict="{verdict}"><sign code="rust-weep"/></before>'))
    with open(folder + "/survey.xml", "w") as file:
        file.write(text)
    answer = run("check", folder + "/survey.xml", "--json")
    codes = [one["code"] for one in json.loads(answer.stdout)[0][where]]
    expect(answer.returncode == code and codes.count(row) == 1, f"a sign of last time that nobody mentions, {verdict} then, is a {what}: {answer.returncode} {codes}")
    with open(folder + "/survey.xml", "w") as file:
        file.write(changed(text, ("</before>", '</before><gone sign="rust-weep" because="cleaned"/>')))
    answer = run("check", folder + "/survey.xml", "--json")
    expect(row not in [one["code"] for one in json.loads(answer.stdout)[0][where]], f"said to be gone it is none ({what})")
for wrong, message in (('<gone sign="crack" because="x"/>', "was not there before"), ('<before survey="F-25" verdict="good"/>', "verdict"),
                       ('<before survey="a" verdict="watch"/><before survey="b" verdict="watch"/>', "a second <before>"), ('<before verdict="watch"/>', "survey")):
    with open(folder + "/survey.xml", "w") as file:
        file.write(changed(third, (plate_up, plate_up + wrong)))
    answer = run("check", folder + "/survey.xml")
    expect(answer.returncode == 2 and message in answer.stderr and "survey.xml:2" in answer.stderr, f"{wrong}: {answer.stderr[:200]}")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
