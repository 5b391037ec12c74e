// The check page as a whole: takes a report and a fingerprint, and says what is shown by them and what is not.

const shown = { run: 0, file: null, result: null, originals: new Map(), busyWithPhotos: false, ofLink: "" };
const DIGITS = /^[0-9a-f]{32,64}$/;
const SIGNS = { good: "M14 31 L26 43 L45 18", bad: "M18 18 L40 40 M40 18 L18 40", open: "M21 22 C21 12 38 12 37 23 C37 30 29 29 29 37 M29 41 L29 46" };

const tongue = () => document.documentElement.lang;
const dates = () => data.words.form;  // how the report's own words in this language write them
const dayOf = (iso) => new Intl.DateTimeFormat(dates(), { dateStyle: "long", timeZone: "UTC" }).format(new Date(iso + "T00:00:00Z"));
const momentText = (seconds) => new Intl.DateTimeFormat(dates(), { dateStyle: "long", timeStyle: "short", timeZone: "UTC" }).format(new Date(seconds * 1000)) + " UTC";

// What was typed, without blanks and colons; "" if nothing was, null if it is no fingerprint or the beginning of one.
function typedPrint() {
  const digits = byId("print").value.toLowerCase().replace(/[\s:\u00a0\u00ad-]/g, "");
  return digits === "" || DIGITS.test(digits) ? digits : null;
}

const groupsOf = (digits) => element("p", { class: "groups", role: "img", "aria-label": digits.match(/.{4}/g).join(" ") }, digits.match(/.{4}/g).map((group) => element("span", { "aria-hidden": "true" }, group)));

const facts = (...rows) => element("dl", {}, rows.filter(([, value]) => value !== "" && value !== null).flatMap(([name, value]) => [element("dt", {}, name), element("dd", {}, value)]));

function told(kind, title, ...sentences) {
  return element("div", { class: "told " + kind },
    drawn("svg", { class: "sign", viewBox: "0 0 58 58", "aria-hidden": "true" },
      drawn("path", { class: "plate-of", d: kind === "bad" ? "M2 2 H56 V56 H2 Z" : "M29 2 A27 27 0 1 1 28.9 2 Z" }), drawn("path", { class: "line-of", d: SIGNS[kind] })),
    element("div", {}, element("h2", {}, title), sentences.map((one) => element("p", {}, one))));
}

const nameOfSigner = (certificate) => certificate.name === "" ? say("nameless") : certificate.name;

// What the certificate's dates leave open, although the key is the one named.
function timeRemarks({ at, chain: [signer] }) {
  if (at < signer.from) return [say("good.early", { name: nameOfSigner(signer) })];
  return Date.now() / 1000 > signer.until ? [say("good.past", { day: dayOfSeconds(signer.until) })] : [];
}

// One of five: as sealed by the key that was named; not shown whose; by another; expired; not as sealed.
function verdictOf(result) {
  if (result.fault) {
    const code = result.fault;
    const unchecked = ["unreadable", "too-large", "no-crypto", "empty", "not-pdf", "not-report", "not-sealed"].includes(code);
    return told("bad", say(unchecked ? "bad.no-report" : "bad.title"), say("fault." + code), say(unchecked ? "bad.no-report.do" : "bad.do"));
  }
  const { report } = result;
  const signer = report.chain[0];
  const who = { name: nameOfSigner(signer) };
  const print = typedPrint();
  if (!print) return told("open", say("open.title", who), say("open.text"));
  if (!hexOf(signer.fingerprint).startsWith(print)) return told("bad", say("other.title"), say("other.text", who));
  if (report.at > signer.until) return told("open", say("expired.title", who), say("expired.text", who));
  return told("good", say("good.title", who), say("good.text"), ...timeRemarks(report));
}

function answerText(record) {
  if (!record || !record.answer) return say("answer.not-carried");
  const { name, barred, complete } = record.answer;
  const words = data.answers[tongue()][name] || name;
  return [element("span", { class: "answer" }, words), barred ? element("span", {}, ". ", say("answer.barred")) : null, complete ? null : element("span", {}, ". ", say("answer.incomplete"))].filter((one) => one);
}

function saysSection({ says, pages }) {
  const { survey, record, unread } = says;
  return element("section", {}, element("h2", {}, say("says")),
    unread.map((file) => element("p", { class: "state-wrong" }, say("says.unread", { file }))),
    survey ? facts([say("says.number"), survey.number], [say("says.yacht"), [survey.yacht, survey.hin].filter((one) => one !== "").join(", ")],
      ...(survey.answers ? [[say("says.follow-up"), survey.answers]] : []),
      ...(survey.on ? [[say(survey.answers ? "says.last" : "says.on"), dayOf(survey.on)]] : []), [say(survey.answers ? "says.rigger" : "says.surveyor"), [survey.surveyor, survey.firm].filter((one) => one !== "").join(", ")],
      [say("says.answer"), answerText(record)], [say("says.pages"), String(pages)]) : null);
}

// The works list in its order; what comes before anyone climbs stands first.
function worksSection({ says: { record } }) {
  if (!record?.works) return null;
  let group = "";
  const lines = record.works.flatMap((work) => {
    const key = work.first ? "climb" : work.verdict;
    const head = key === group ? null : element("li", { class: "group" }, say("work." + key));
    group = key;
    return [head, element("li", { class: "work" }, element("span", {}, shape(work.verdict), element("span", { class: "unseen-text" }, say("verdict." + work.verdict))),
      element("div", { lang: record.language }, element("strong", {}, work.item + ". " + harmless(work.words)), element("p", { class: "hint" }, harmless(work.because))))];
  });
  return element("section", { id: "works" }, element("h2", {}, say("works")),
    record.works.length > 0 ? element("ol", { class: "works" }, lines) : element("p", {}, say("works.none")));
}

function sealSection(report) {
  const [signer, ...chain] = report.chain;
  const stamp = report.timestamp;
  return element("section", {}, element("h2", {}, say("seal")),
    facts([say("seal.name"), nameOfSigner(signer)], [say("seal.firm"), signer.organisation],
      [say("seal.at"), momentText(report.at) + " " + say("seal.at.own")],
      [say("seal.valid"), dayOfSeconds(signer.from) + " – " + dayOfSeconds(signer.until)],
      [say("seal.chain"), chain.map(nameOfSigner).join(", ")],
      [say("seal.stamp"), stamp ? say("seal.stamp.text", { when: momentText(stamp.at), by: nameOfSigner(stamp.authority) }) : ""],
      [say("seal.print"), groupsOf(hexOf(signer.fingerprint))]),
    element("p", { class: "hint" }, say("seal.print.hint")));
}

const dayOfSeconds = (seconds) => dayOf(new Date(seconds * 1000).toISOString().slice(0, 10));

// What became of a photo of the register among the originals that were given.
function photoState({ file, digest }) {
  if (digest === "") return ["never-had", true];
  if ([...shown.originals.values()].includes(digest)) return ["found", false];
  return shown.originals.has(file.split("/").pop()) ? ["altered", true] : ["missing", false];
}

function photosSection({ says }) {
  if (!says.photos) return null;
  const compared = shown.originals.size > 0;
  const rows = says.photos.map((photo) => {
    const [state, wrong] = photoState(photo);
    return element("tr", {}, element("th", { scope: "row" }, photo.file), element("td", { class: "digest" }, photo.digest),
      compared || photo.digest === "" ? element("td", { class: wrong ? "state-wrong" : "" }, say("photo." + state)) : element("td", {}, "–"));
  });
  const known = new Set(says.photos.map((photo) => photo.digest));
  const strangers = [...shown.originals].filter(([name, digest]) => !known.has(digest) && !says.photos.some((photo) => photo.file.split("/").pop() === name));
  const found = says.photos.filter((photo) => photoState(photo)[0] === "found").length;
  return element("section", {}, element("h2", {}, say("photos", { n: says.photos.length })),
    element("p", {}, say("photos.text")),
    element("div", { class: "originals" }, element("label", { for: "originals" }, say("photos.give")),
      element("input", { type: "file", id: "originals", multiple: true, onchange: (event) => takeOriginals([...event.target.files]) })),
    element("p", { role: "status", id: "photos-say" }, shown.busyWithPhotos ? say("photos.busy") : compared ? say("photos.found", { n: found, all: says.photos.length }) : ""),
    strangers.length > 0 ? element("p", { class: "state-wrong" }, say("photos.strange", { names: strangers.map(([name]) => harmless(name)).join(", ") })) : null,
    element("details", { open: compared || says.photos.length <= 12 }, element("summary", {}, say("photos.list")),
      element("table", { class: "photos" },
        element("thead", {}, element("tr", {}, ["file", "digest", "state"].map((one) => element("th", { scope: "col" }, say("photos.head." + one))))),
        element("tbody", {}, rows))));
}

const checkedSection = () => element("section", {}, element("h2", {}, say("checked")),
  element("ul", { class: "plain" }, ["form", "range", "cms", "signature", "certified", "files"].map((one) => element("li", {}, say("checked." + one)))));

function showResult() {
  const print = typedPrint();
  put(byId("print-says"), print === null ? element("span", { class: "state-wrong" }, say("print.wrong"))
    : shown.ofLink !== "" && byId("print").value === shown.ofLink ? element("span", { class: "hint" }, say("print.of-link")) : null);
  const { result } = shown;
  if (!result && shown.originals.size > 0) put(byId("verdict"), element("p", { class: "busy" }, say("photos.first", { n: shown.originals.size })));
  if (!result) return;
  put(byId("verdict"), verdictOf(result));
  put(byId("details"), element("p", { class: "hint" }, say("of-file", { file: harmless(result.name) })),
    result.report ? [saysSection(result.report), worksSection(result.report), sealSection(result.report), photosSection(result.report), checkedSection()] : null);
}

async function breathe() {
  await new Promise((done) => setTimeout(done, 0));
}

async function check(file) {
  const run = ++shown.run;
  shown.result = null;
  const bar = element("progress", { max: "1", value: "0", "aria-label": say("busy") });
  put(byId("verdict"), element("div", { class: "busy" }, element("p", {}, say("busy")), bar));
  put(byId("details"));
  const progress = async (part) => {
    bar.value = part;
    await breathe();
  };
  const result = { name: file.name };
  try {
    if (!globalThis.crypto?.subtle || typeof DecompressionStream === "undefined") throw new Fault("no-crypto");
    result.report = await examine(sourceOf(file), progress);
  } catch (error) {
    result.fault = error instanceof Fault ? error.code : "unreadable";
  }
  if (run !== shown.run) return;
  shown.result = result;
  showResult();
}

async function digestOfFile(file) {
  const source = sourceOf(file);
  const digest = sha256InPieces();
  for (let at = 0; at < file.size; at += PIECE) {
    digest.add(await source.read(at, Math.min(at + PIECE, file.size)));
    await breathe();
  }
  return hexOf(digest.finish());
}

async function takeOriginals(files) {
  shown.busyWithPhotos = true;
  showResult();
  for (const file of files) {
    try {
      shown.originals.set(file.name, await digestOfFile(file));
    } catch {
      shown.originals.set(file.name, "");  // what cannot be read is nobody's original
    }
  }
  shown.busyWithPhotos = false;
  showResult();
}

const looksLikeReport = (file) => /\.pdf$/i.test(file.name) || file.type === "application/pdf";

// A PDF is the report, all else originals of its photos. What was chosen as the report is told what it is.
function take(files, asReport) {
  const report = files.find(looksLikeReport) || (asReport || files.length === 1 && !/^image\//.test(files[0].type) ? files[0] : null);
  const originals = files.filter((file) => file !== report && !looksLikeReport(file));
  if (report) check(report);
  if (originals.length > 0) takeOriginals(originals);
}

function speakIn(language) {
  document.documentElement.lang = language;
  data.words = data.languages[language];
  document.title = say("title");
  speak(document);
  put(byId("languages"), Object.keys(data.languages).map((one) =>
    element("button", { type: "button", id: "in-" + one, lang: one, "aria-pressed": String(one === language), onclick: () => speakIn(one) }, data.languages[one].language)));
  byId("languages").setAttribute("aria-label", say("languages"));
  showResult();
}

// What stands behind check.html#fp=; a browser sends that to nobody.
function printOfLink() {
  const [, text] = /^#fp=(.*)$/.exec(location.hash) || [];
  try {
    return text ? decodeURIComponent(text.replace(/\+/g, " ")) : "";
  } catch {
    return text;
  }
}

function beginCheck() {
  const wanted = navigator.languages.map((one) => one.slice(0, 2).toLowerCase());
  shown.ofLink = printOfLink();
  byId("print").value = shown.ofLink;
  speakIn(wanted.find((one) => Object.hasOwn(data.languages, one)) || "en");
  byId("file").addEventListener("change", (event) => take([...event.target.files], true));
  byId("file").addEventListener("click", (event) => { event.target.value = ""; });  // the same file may be chosen again
  byId("print").addEventListener("input", showResult);
  for (const kind of ["dragenter", "dragover"])
    document.addEventListener(kind, (event) => {
      event.preventDefault();
      byId("drop").classList.add("over");
    });
  document.addEventListener("dragleave", () => byId("drop").classList.remove("over"));
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    byId("drop").classList.remove("over");
    take([...event.dataTransfer.files], false);
  });
  document.documentElement.dataset.ready = "yes";
}

beginCheck();
