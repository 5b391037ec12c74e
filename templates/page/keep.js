// What was typed survives a closed tab: it is kept in the browser, by the digest of the survey file.

const shelf = "rigdeed marks " + data.survey.number + " ";
const place = shelf + data.survey.sha256;
let saved = 0; // length of `done` when it was last saved
let forgetful = false;

function stored(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch (error) {
    return null;
  }
}

function keep() {
  const changed = [];
  for (const key of new Set([...before.keys(), ...now.keys()]))
    if (!same(before.get(key), now.get(key))) changed.push([key, now.get(key) === undefined ? null : now.get(key)]);
  const whole = { changed, done, undone, saved, at: current.id, pass: current.pass, keys: singleKeys, xml: xmlOf().text };
  try {
    localStorage.setItem(place, JSON.stringify(whole));
  } catch (error) {
    try {
      localStorage.setItem(place, JSON.stringify({ ...whole, done: [], undone: [] }));
    } catch (again) {
      if (!forgetful) tell(say("notice.forgetful"));
      forgetful = true;
    }
  }
}

// True if there was anything.
function goOn() {
  const whole = stored(place);
  if (!whole || !Array.isArray(whole.changed)) return false;
  for (const [key, cell] of whole.changed) set(key, cell === null ? undefined : cell);
  done = whole.done || [];
  undone = whole.undone || [];
  saved = whole.saved || 0;
  singleKeys = whole.keys !== false;
  if (fittingById.has(whole.at)) current.id = whole.at;
  if (passes.includes(whole.pass)) current.pass = whole.pass;
  return whole.changed.length > 0;
}

function forget() {
  try {
    localStorage.removeItem(place);
  } catch (error) {
    forgetful = true;
  }
  now.clear();
  for (const [key, cell] of before) now.set(key, copied(cell));
  done = [];
  undone = [];
  saved = 0;
}

// Typed into an earlier page of this survey and never saved: [{key, xml}].
function leftOver() {
  const list = [];
  try {
    for (let i = 0; i < localStorage.length; ++i) {
      const key = localStorage.key(i);
      if (!key.startsWith(shelf) || key === place) continue;
      const whole = stored(key);
      if (whole && whole.xml && (whole.done || []).length !== whole.saved) list.push({ key, xml: whole.xml });
    }
  } catch (error) {
    forgetful = true;
  }
  return list;
}
