// What the survey says and what was said here: cells by their keys, each change with what was before.
//   look FITTING PASS       {look: {at, far, on-far, close, because}, signs: [{code, where, count, length, mark, words}]}
//   unseen FITTING PASS     {reason}; PASS may be "both"
//   measured FITTING WHAT   {value, from, along}
//   scale PHOTO             {length, of, along}
//   other PHOTO             {shows}
//   proposed FITTING PASS   {far, close, sure}: of the program, until somebody says so

const copied = (value) => (value === undefined ? undefined : JSON.parse(JSON.stringify(value)));
const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
const keyOf = (...parts) => parts.join("\n");

const fittings = data.fittings;
const fittingById = new Map(fittings.map((one) => [one.id, one]));
const photos = data.photos;
const photoByName = new Map(photos.map((one) => [one.name, one]));
const passes = ["up", "down"];

const before = new Map(); // as the survey file says it
for (const fitting of fittings) {
  for (const pass of passes) if (fitting.looks[pass]) before.set(keyOf("look", fitting.id, pass), fitting.looks[pass]);
  for (const [pass, reason] of Object.entries(fitting.unseen)) before.set(keyOf("unseen", fitting.id, pass), { reason });
  for (const [what, cell] of Object.entries(fitting.measured)) before.set(keyOf("measured", fitting.id, what), cell);
}
for (const [photo, cell] of Object.entries(data.scales)) before.set(keyOf("scale", photo), cell);
for (const [photo, cell] of Object.entries(data.others)) before.set(keyOf("other", photo), cell);
for (const photo of photos) {
  if (!photo.proposed) continue;
  const { view, pass, sure } = photo.proposed;
  for (const id of photo.proposed.fittings) {
    const key = keyOf("proposed", id, pass);
    const cell = before.get(key) || { sure: true };
    if (cell[view]) continue;
    cell[view] = photo.name;
    cell.sure = cell.sure && sure;
    before.set(key, cell);
  }
}

const now = new Map([...before].map(([key, cell]) => [key, copied(cell)]));
let done = []; // changes: lists of [key, before, after]
let undone = [];
const watchers = [];

const cellOf = (...parts) => now.get(keyOf(...parts));
const lookOf = (id, pass) => now.get(keyOf("look", id, pass));
const proposedOf = (id, pass) => now.get(keyOf("proposed", id, pass));
const unseenOf = (id, pass) => now.get(keyOf("unseen", id, pass)) || now.get(keyOf("unseen", id, "both"));

function set(key, cell) {
  if (cell === undefined) now.delete(key);
  else now.set(key, copied(cell));
}

// `entries` are [key, cell] pairs; undefined takes away.
function change(entries) {
  const list = entries.map(([key, cell]) => [key, copied(now.get(key)), copied(cell)]).filter(([, a, b]) => !same(a, b));
  if (list.length === 0) return false;
  for (const [key, , after] of list) set(key, after);
  done.push(list);
  undone = [];
  for (const watcher of watchers) watcher(list.map(([key]) => key));
  return true;
}

function step(from, to, place) {
  const list = from.pop();
  if (!list) return false;
  for (const entry of place === 1 ? [...list].reverse() : list) set(entry[0], entry[place]);
  to.push(list);
  for (const watcher of watchers) watcher(list.map(([key]) => key));
  return list;
}
const undo = () => step(done, undone, 1);
const redo = () => step(undone, done, 2);

// A look without anything is none.
function tidied(look) {
  const cell = { look: {}, signs: look.signs || [] };
  for (const name of ["at", "far", "on-far", "close", "because"]) if (look.look[name]) cell.look[name] = look.look[name];
  if (!cell.look.far) delete cell.look["on-far"]; // a place on a photo goes with it
  return Object.keys(cell.look).length === 0 && cell.signs.length === 0 ? undefined : cell;
}

const emptyLook = () => ({ look: {}, signs: [] });
const timeOf = (photo) => (photoByName.get(photo)?.at || "").slice(0, 5);

// Where a photo is said to be: [{id, pass, view}].
function placesOf(photo) {
  const places = [];
  for (const [key, cell] of now) {
    const [what, id, pass] = key.split("\n");
    if (what !== "look") continue;
    for (const view of ["far", "close"]) if (cell.look[view] === photo) places.push({ id, pass, view });
  }
  return places;
}

// In the order in which that pass goes.
const inOrder = (pass) => (pass === "up" ? fittings : [...fittings].reverse());

function withPhoto(id, pass, view, photo) {
  const cell = copied(lookOf(id, pass)) || emptyLook();
  if (view === "far" && cell.look.far !== photo) delete cell.look["on-far"];
  cell.look[view] = photo;
  if (!cell.look.at) cell.look.at = timeOf(cell.look.close) || timeOf(photo);
  return cell;
}

function assign(id, pass, view, photo) {
  const entries = [[keyOf("look", id, pass), tidied(withPhoto(id, pass, view, photo))]];
  // A close photo shows one fitting.
  if (view === "close")
    for (const place of placesOf(photo))
      if (place.view === "close" && (place.id !== id || place.pass !== pass)) {
        const cell = copied(lookOf(place.id, place.pass));
        delete cell.look.close;
        entries.push([keyOf("look", place.id, place.pass), tidied(cell)]);
      }
  // What somebody said is proposed no more: neither for this place, nor this photo for another.
  const here = keyOf("proposed", id, pass);
  for (const [key, cell] of now) {
    if (!key.startsWith("proposed\n")) continue;
    const rest = { ...cell };
    if (key === here) delete rest[view];
    for (const one of ["far", "close"]) if (rest[one] === photo && (view === "close" || one === "close")) delete rest[one];
    if (!same(rest, cell)) entries.push([key, rest.far || rest.close ? rest : undefined]);
  }
  if (now.has(keyOf("other", photo))) entries.push([keyOf("other", photo), undefined]);
  return change(entries);
}

function clearSlot(id, pass, view) {
  const entries = [];
  const cell = copied(lookOf(id, pass));
  if (cell && cell.look[view]) {
    delete cell.look[view];
    entries.push([keyOf("look", id, pass), tidied(cell)]);
  }
  const proposed = copied(proposedOf(id, pass));
  if (proposed && proposed[view]) {
    delete proposed[view];
    entries.push([keyOf("proposed", id, pass), proposed.far || proposed.close ? proposed : undefined]);
  }
  return change(entries);
}

// Takes what the program proposes for a fitting as said.
function accepted(id, pass) {
  const proposed = proposedOf(id, pass);
  if (!proposed) return [];
  let cell = copied(lookOf(id, pass)) || emptyLook();
  for (const view of ["close", "far"])
    if (proposed[view] && !cell.look[view]) {
      cell.look[view] = proposed[view];
      if (!cell.look.at) cell.look.at = timeOf(proposed[view]);
    }
  return [[keyOf("look", id, pass), tidied(cell)], [keyOf("proposed", id, pass), undefined]];
}
const accept = (id, pass) => change(accepted(id, pass));

// All that the program is sure of, where nothing is said to the contrary.
function acceptSure() {
  const entries = [];
  for (const fitting of fittings)
    for (const pass of passes)
      if (proposedOf(fitting.id, pass)?.sure && !unseenOf(fitting.id, pass)) entries.push(...accepted(fitting.id, pass));
  return change(entries);
}

// From this fitting on each has the photos of the one before it (or behind it, with `by` -1), in the order of the
// pass. Where a sign was seen nothing moves: it belongs to its photo. Tells how many moved, or what is in the way.
function shift(id, pass, by) {
  const order = inOrder(pass).map((one) => one.id);
  const chain = order.slice(order.indexOf(id));
  const bar = chain.find((one) => (lookOf(one, pass)?.signs || []).length > 0);
  if (bar) return { bar };
  const takes = (cell) => (cell ? { far: cell.far, "on-far": cell["on-far"], close: cell.close, at: cell.at } : {});
  const said = chain.map((one) => takes(lookOf(one, pass)?.look));
  const proposed = chain.map((one) => copied(proposedOf(one, pass)));
  const entries = [];
  chain.forEach((one, i) => {
    const from = i - by;
    const cell = copied(lookOf(one, pass)) || emptyLook();
    Object.assign(cell.look, { far: undefined, "on-far": undefined, close: undefined, at: undefined }, said[from] || {});
    entries.push([keyOf("look", one, pass), tidied(cell)]);
    entries.push([keyOf("proposed", one, pass), proposed[from]]);
  });
  return { moved: change(entries) };
}
