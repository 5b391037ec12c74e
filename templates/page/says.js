// What the files carried in a report say: number, yacht, day, answer, works, photos. What cannot be read is left out,
// and named in `unread`.

const DIGEST = /^[0-9a-f]{64}$/;

function need(truth, what) {
  if (!truth) throw new Fault("carried", what);
}

function readSurvey(bytes) {
  const root = readXml(bytes, "rig-survey", "urn:rigdeed:survey:1");
  const [yacht, ...yachts] = childrenOf(root, "yacht");
  const [attendance, ...attendances] = childrenOf(root, "attendance");
  const [surveyor, ...surveyors] = childrenOf(root, "surveyor");
  need(yacht && attendance && surveyor && yachts.length + attendances.length + surveyors.length === 0, "not one yacht, one attendance, one surveyor");
  const number = root.attributes.get("number");
  const on = attendance.attributes.get("on");
  need(number && /^\d{4}-\d\d-\d\d$/.test(on), "no number or day");
  return { number, on, yacht: yacht.attributes.get("name") || "", hin: yacht.attributes.get("hin") || "", surveyor: surveyor.attributes.get("name") || "", firm: surveyor.attributes.get("firm") || "" };
}

// A follow-up's works file, which answers a report.
function readWorksDone(bytes) {
  const root = readXml(bytes, "works-done", "urn:rigdeed:works:1");
  const [report, ...reports] = childrenOf(root, "report");
  const [rigger, ...riggers] = childrenOf(root, "rigger");
  need(report && rigger && reports.length + riggers.length === 0, "not one report, one rigger");
  const number = root.attributes.get("number"), answers = report.attributes.get("number");
  const days = childrenOf(root, "item").map((item) => item.attributes.get("on") || "").filter((on) => on !== "").sort();
  need(number && answers && days.every((on) => /^\d{4}-\d\d-\d\d$/.test(on)), "no number, or a day of another form");
  return { number, answers, on: days.pop() || "", yacht: report.attributes.get("yacht") || "", hin: "", surveyor: rigger.attributes.get("name") || "", firm: rigger.attributes.get("firm") || "" };
}

// Each photo of the register: { file, digest }; without a digest, the report was issued without it.
function readRegister(bytes) {
  const root = readXml(bytes, "photo-register", "urn:rigdeed:photos:1");
  return root.children.map((photo) => {
    const file = photo.attributes.get("file") || photo.attributes.get("name");
    const digest = photo.attributes.get("sha256");
    need(photo.name === "photo" && file && (digest === undefined || DIGEST.test(digest)), "a photo of another form");
    return { file, digest: digest || "" };
  });
}

const yesOrNo = (value) => value === undefined ? undefined : value === "yes";

const VERDICTS = ["renew", "rectify", "watch", "unseen"];

// A line of the works list, in the report's own words.
function readWork(element) {
  const get = (name) => element.attributes.get(name);
  need(/^[1-9][0-9]{0,5}$/.test(get("item")) && VERDICTS.includes(get("verdict")) && ["yes", "no"].includes(get("first")) && get("words"), "a work of another form");
  return { item: get("item"), verdict: get("verdict"), first: get("first") === "yes", words: get("words"), because: get("because") || "" };
}

// How it was made, and what its rules made of the survey; reports of 0.1.0 do not say the latter.
function readRecord(bytes) {
  const root = readXml(bytes, "issue", "urn:rigdeed:issue:1");
  const get = (name) => root.attributes.get(name);
  for (const [name, words] of [["timestamp", "yes no"], ["complete", "yes no"], ["climbing", "barred free"]])
    need(get(name) === undefined || words.split(" ").includes(get(name)), "a " + name + " of another form");
  const works = childrenOf(root, "work").map(readWork);
  need(get("works") === undefined ? works.length === 0 : get("works") === String(works.length), "another number of works");
  return {
    works: get("works") === undefined ? null : works,
    program: (get("program") || "").split(",")[0],
    language: get("language") || "en",
    timestamp: yesOrNo(get("timestamp")),
    answer: get("answer") && get("climbing") && get("complete") ? { name: get("answer"), barred: get("climbing") === "barred", complete: get("complete") === "yes" } : null,
  };
}

function whatItSays(files) {
  const unread = [];
  const read = (name, reader) => {
    if (!files.has(name)) return null;
    try {
      return reader(files.get(name));
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      unread.push(name);
      return null;
    }
  };
  return { survey: read("survey.xml", readSurvey) || read("works.xml", readWorksDone), photos: read("photos.xml", readRegister), record: read("issue.xml", readRecord), unread };
}
