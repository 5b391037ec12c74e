// What was said here as a file of statements, each with what stood in the survey.

const xmlText = (text) =>
  String(text).replace(/[\u0000-\u001f\u007f]+/g, " ").replace(/ +/g, " ").trim()
    .replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");

const attributes = {
  look: ["at", "far", "on-far", "close", "because"],
  sign: ["code", "where", "count", "length", "mark"],
  "not-seen": ["reason"],
  measured: ["value", "from", "along"],
  scale: ["length", "of", "along"],
  other: ["shows", "is"],
};

function cellText(tag, name, cell) {
  if (!cell) return "";
  let text = "    <" + name;
  for (const one of attributes[tag]) if (cell[one]) text += " " + one + '="' + xmlText(cell[one]) + '"';
  return text + (cell.words ? ">" + xmlText(cell.words) + "</" + name + ">\n" : "/>\n");
}

function statement(tag, where, was, is) {
  if (same(was, is)) return "";
  let text = "  <" + tag;
  for (const [name, value] of Object.entries(where)) text += " " + name + '="' + xmlText(value) + '"';
  return text + ">\n" + cellText(tag, "was", was) + cellText(tag, "is", is) + "  </" + tag + ">\n";
}

const ordered = (names, cell) => {
  if (!cell) return undefined;
  const list = {};
  for (const name of names) if (cell[name]) list[name] = cell[name];
  return list;
};
const signCell = (sign) => ordered([...attributes.sign, "words"], sign);

// A sign that is as it was is no statement; one at the same place in the list is the same sign, changed.
function signStatements(where, was, is) {
  const old = (was || []).map(signCell);
  const fresh = (is || []).map(signCell);
  for (let i = old.length - 1; i >= 0; --i) {
    const found = fresh.findIndex((one) => same(one, old[i]));
    if (found < 0) continue;
    old.splice(i, 1);
    fresh.splice(found, 1);
  }
  let text = "";
  for (let i = 0; i < Math.max(old.length, fresh.length); ++i) text += statement("sign", where, old[i], fresh[i]);
  return text;
}

// A look without a time is not yet one: {text, count, left: [fitting ids]}.
function xmlOf() {
  let body = "";
  const left = [];
  const keys = [...new Set([...before.keys(), ...now.keys()])].sort((a, b) => rank(a) - rank(b));
  for (const key of keys) {
    const [what, name, more] = key.split("\n");
    const was = before.get(key);
    const is = now.get(key);
    if (same(was, is)) continue;
    if (what === "look") {
      if (is && !is.look.at) {
        left.push(name);
        continue;
      }
      const where = { fitting: name, pass: more };
      body += statement("look", where, ordered(attributes.look, was?.look), ordered(attributes.look, is?.look));
      body += signStatements(where, was?.signs, is?.signs);
    } else if (what === "unseen") {
      body += statement("not-seen", more === "both" ? { fitting: name } : { fitting: name, pass: more }, was, is);
    } else if (what === "measured") {
      body += statement("measured", { fitting: name, what: more }, ordered(attributes.measured, was), ordered(attributes.measured, is));
    } else if (what === "scale") {
      body += statement("scale", { photo: name }, ordered(attributes.scale, was), ordered(attributes.scale, is));
    } else if (what === "other") {
      body += statement("other", { name }, ordered(attributes.other, was), ordered(attributes.other, is));
    }
  }
  const text = '<?xml version="1.0" encoding="UTF-8"?>\n<rig-marks xmlns="urn:rigdeed:marks:1" number="' +
    xmlText(data.survey.number) + '" survey-sha256="' + data.survey.sha256 + '">\n' + body + "</rig-marks>\n";
  return { text, count: (body.match(/^ {2}</gm) || []).length / 2, left };
}

// In the order of the survey file.
const places = new Map(fittings.map((one, i) => [one.id, i + 1]));
function rank(key) {
  const [what, name, more] = key.split("\n");
  return (places.get(name) || 0) * 10 + ["look", "unseen", "measured", "scale", "other", "proposed"].indexOf(what) + (more === "down" ? 0.5 : 0);
}

function hand(text, name) {
  const address = URL.createObjectURL(new Blob([text], { type: "application/xml" }));
  const link = element("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}

const stamp = () => new Date().toISOString().slice(0, 23).replace(/[:T.]/g, "-");

function save() {
  const made = xmlOf();
  const name = "marks-" + data.survey.number.replace(/[^A-Za-z0-9._-]/g, "_") + "-" + stamp() + ".xml";
  hand(made.text, name);
  saved = done.length;
  keep();
  showBar();
  const text = say("notice.saved", { n: made.count, name, survey: data.survey.file });
  const names = made.left.map((id) => fittingById.get(id)?.name || id).join("; ");
  tell(made.left.length > 0 ? text + " " + say("notice.left-out", { names }) : text);
}
