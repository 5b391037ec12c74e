// All photos in the order they were taken; one is in hand, to be given to a fitting by key, button or drag.

const roll = { at: 0, dragging: null };
const inHand = () => photos[roll.at];

function usesOf() {
  const uses = new Map();
  for (const [key, cell] of now) {
    const [what, id, pass] = key.split("\n");
    if (what === "look")
      for (const view of ["far", "close"]) if (cell.look[view]) uses.set(cell.look[view], { id, pass, view });
    if (what === "other") uses.set(id, { other: true });
  }
  return uses;
}

function useText(use) {
  if (!use) return say("unused");
  return use.other ? say("other") : say(use.view) + ", " + (fittingById.get(use.id)?.name || use.id) + ", " + passWord(use.pass);
}

function buildRoll() {
  const cells = photos.map((photo, i) =>
    element("div", { class: "shot", role: "option", id: "shot-" + i, "data-i": String(i), "aria-selected": "false" },
      photo.small ? element("img", { src: photo.small, alt: "", loading: "lazy", decoding: "async", draggable: "false" }) : element("span", { class: "none" }, "?"),
      element("span", { class: "shot-name" }, photo.name)));
  put(byId("roll"), cells);
  const place = byId("roll");
  place.addEventListener("pointerdown", (event) => {
    const shot = event.target.closest(".shot");
    if (!shot || event.button > 0) return;
    takeInHand(Number(shot.dataset.i));
    roll.dragging = { i: Number(shot.dataset.i), x: event.clientX, y: event.clientY, on: false, id: event.pointerId };
  });
  window.addEventListener("pointermove", dragMoves);
  window.addEventListener("pointerup", dragEnds);
  window.addEventListener("pointercancel", () => dropGhost());
  place.addEventListener("keydown", (event) => {
    const by = { ArrowLeft: -1, ArrowRight: 1, Home: -photos.length, End: photos.length, PageUp: -8, PageDown: 8 }[event.key];
    if (by === undefined || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    takeInHand(bounded(roll.at + by, 0, photos.length - 1));
  });
}

function dropGhost() {
  roll.dragging?.ghost?.remove();
  for (const one of document.querySelectorAll(".over")) one.classList.remove("over");
  roll.dragging = null;
}

const targetAt = (x, y) => document.elementFromPoint(x, y)?.closest("[data-slot], [data-fitting]");

function dragMoves(event) {
  const drag = roll.dragging;
  if (!drag || event.pointerId !== drag.id) return;
  if (!drag.on && Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < 8) return;
  if (!drag.on) {
    drag.on = true;
    drag.ghost = element("div", { class: "ghost" }, photos[drag.i].small ? element("img", { src: photos[drag.i].small, alt: "" }) : photos[drag.i].name);
    document.body.append(drag.ghost);
  }
  drag.ghost.style.transform = "translate(" + (event.clientX + 6) + "px," + (event.clientY + 6) + "px)";
  for (const one of document.querySelectorAll(".over")) one.classList.remove("over");
  targetAt(event.clientX, event.clientY)?.classList.add("over");
}

function dragEnds(event) {
  const drag = roll.dragging;
  if (!drag || event.pointerId !== drag.id) return;
  const target = drag.on ? targetAt(event.clientX, event.clientY) : null;
  const photo = photos[drag.i].name;
  const far = event.shiftKey;
  dropGhost();
  if (!target) return;
  if (target.dataset.slot) assign(current.id, current.pass, target.dataset.slot, photo);
  else {
    assign(target.dataset.fitting, current.pass, far ? "far" : "close", photo);
    go(target.dataset.fitting);
  }
}

function takeInHand(i) {
  if (i < 0 || i >= photos.length) return;
  byId("shot-" + roll.at)?.setAttribute("aria-selected", "false");
  roll.at = i;
  const shot = byId("shot-" + i);
  shot.setAttribute("aria-selected", "true");
  byId("roll").setAttribute("aria-activedescendant", "shot-" + i);
  const box = byId("roll");
  box.scrollLeft = shot.offsetLeft - box.clientWidth / 2 + shot.clientWidth / 2;
  showHand();
}

function showHand() {
  const photo = inHand();
  if (!photo) return put(byId("roll-head"), element("p", {}, say("no-photos")));
  const use = usesOf().get(photo.name);
  const act = (id, key, does) => element("button", { type: "button", id: "hand-" + id, onclick: does }, say("hand." + id), " ", element("kbd", {}, key));
  put(byId("roll-head"),
    element("p", { id: "in-hand" }, element("b", {}, photo.name), (photo.at ? ", " + photo.at : "") + ": " + useText(use)),
    element("div", { class: "choices" },
      act("far", "f", acts.far), act("close", "c", acts.close), act("same-far", "d", acts.sameFar), act("other", "o", acts.other),
      act("later", "]", acts.later), act("earlier", "[", acts.earlier), act("accept-sure", "A", acts.acceptSure)));
}

function markRoll() {
  const uses = usesOf();
  photos.forEach((photo, i) => {
    const use = uses.get(photo.name);
    const shot = byId("shot-" + i);
    shot.classList.toggle("used", Boolean(use));
    shot.classList.toggle("here", Boolean(use && use.id === current.id && use.pass === current.pass));
    shot.setAttribute("aria-label", photo.name + (photo.at ? ", " + photo.at : "") + ": " + useText(use));
  });
}

// The photo in hand goes along: to the close one of this fitting, or what is proposed, else behind that of the last.
function handFollows() {
  const look = lookOf(current.id, current.pass)?.look;
  const proposed = proposedOf(current.id, current.pass);
  const name = look?.close || proposed?.close || look?.far || proposed?.far;
  const i = photos.findIndex((one) => one.name === name);
  if (i >= 0) takeInHand(i);
}
