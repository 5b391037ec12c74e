// What every key does; single keys can be turned off (WCAG 2.2, 2.1.4).

let singleKeys = true;

function neighbour(by, wanted) {
  const at = fittings.findIndex((one) => one.id === current.id);
  for (let i = at + by; i >= 0 && i < fittings.length; i += by) if (!wanted || wanted(fittings[i])) return fittings[i].id;
  return null;
}

function moveOn(by, wanted, none) {
  const id = neighbour(by, wanted);
  if (id) go(id);
  else tell(say(none));
}

const hasGap = (fitting) => gaps.get(fitting.id).length > 0;

function give(view) {
  const photo = inHand();
  if (!photo) return;
  assign(current.id, current.pass, view, photo.name);
  takeInHand(Math.min(roll.at + 1, photos.length - 1));
}

const acts = {
  next: () => moveOn(1, null, "notice.last"),
  previous: () => moveOn(-1, null, "notice.first"),
  nextMissing: () => {
    const id = neighbour(1, hasGap) || fittings.find(hasGap)?.id;
    if (id) go(id);
    else tell(say("notice.none-missing"));
  },
  photoOn: () => takeInHand(Math.min(roll.at + 1, photos.length - 1)),
  photoBack: () => takeInHand(Math.max(roll.at - 1, 0)),
  far: () => give("far"),
  close: () => give("close"),
  sameFar: () => {
    const order = inOrder(current.pass).map((one) => one.id);
    for (let i = order.indexOf(current.id) - 1; i >= 0; --i) {
      const far = lookOf(order[i], current.pass)?.look.far || proposedOf(order[i], current.pass)?.far;
      if (far) return void assign(current.id, current.pass, "far", far);
    }
    tell(say("notice.no-far"));
  },
  none: () => {
    if (!clearSlot(current.id, current.pass, activeView)) tell(say("no-photo", { view: say(activeView) }));
  },
  other: () => {
    const photo = inHand();
    if (!photo) return;
    const key = keyOf("other", photo.name);
    const shows = element("input", { id: "other-shows", maxlength: "200", value: now.get(key)?.shows || "" });
    const form = element("form", { class: "typed" }, element("label", {}, say("other-shows", { photo: photo.name }), " ", shows), element("button", { type: "submit" }, say("tool.set")));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      change([[key, shows.value.trim() ? { ...now.get(key), shows: shows.value.trim() } : undefined]]);
      put(byId("tool-form"));
      byId("pair").focus({ preventScroll: true });
      acts.photoOn();
    });
    put(byId("tool-form"), form);
    shows.focus();
  },
  later: () => shifted(1),
  earlier: () => shifted(-1),
  accept: () => {
    if (!accept(current.id, current.pass)) tell(say("notice.no-proposal"));
  },
  acceptSure: () => {
    if (!acceptSure()) tell(say("notice.no-proposal"));
  },
  pass: () => turn(current.pass === "up" ? "down" : "up"),
  circle: () => tool.take("circle"),
  scale: () => tool.take("scale"),
  length: () => tool.take("length"),
  angle: () => tool.take("angle"),
  zoom: () => views[activeView].toggleOriginal(),
  zoomIn: () => views[activeView].zoomTo(views[activeView].zoom * 1.25),
  zoomOut: () => views[activeView].zoomTo(views[activeView].zoom / 1.25),
  view: () => views[activeView === "close" ? "far" : "close"].frame.focus(),
  sign: () => {
    byId("add-sign").open = true;
    byId("add-0")?.focus();
  },
  words: () => (selectedSign() ? byId("sign-words-" + current.sign) : byId("because"))?.focus(),
  unseen: () => (byId("unseen-here") || byId("because")).focus(),
  undo: () => undoOrRedo(undo, "notice.nothing-undone"),
  redo: () => undoOrRedo(redo, "notice.nothing-redone"),
  save: () => save(),
  help: () => showHelp(),
};

function shifted(by) {
  const result = shift(current.id, current.pass, by);
  if (result.bar) tell(say("notice.shift-barred", { fitting: fittingById.get(result.bar).name }));
}

function undoOrRedo(act, none) {
  const list = act();
  if (!list) return tell(say(none));
  // Where it happened is where one looks.
  const [what, id, pass] = list[0][0].split("\n");
  if (fittingById.has(id) && what !== "other") {
    if (what === "look" && passes.includes(pass)) current.pass = pass;
    go(id);
  }
}

const keyTable = [
  ["j", "next"], ["k", "previous"], ["n", "nextMissing"], ["Enter", "accept"], ["A", "acceptSure"],
  ["ArrowRight", "photoOn"], ["ArrowLeft", "photoBack"], ["f", "far"], ["c", "close"], ["d", "sameFar"], ["o", "other"], ["x", "none"],
  ["]", "later"], ["[", "earlier"], ["p", "pass"], ["v", "view"], ["z", "zoom"], ["+", "zoomIn"], ["-", "zoomOut"],
  ["i", "sign"], ["m", "circle"], ["t", "words"], ["b", "unseen"], ["s", "scale"], ["l", "length"], ["g", "angle"],
  ["u", "undo"], ["r", "redo"], ["w", "save"], ["?", "help"],
];
const keyNames = { ArrowRight: "→", ArrowLeft: "←" };

function showHelp() {
  const dialog = byId("keys");
  const box = element("input", { type: "checkbox", id: "single-keys", checked: singleKeys && "" });
  box.addEventListener("change", () => {
    singleKeys = box.checked;
    keep();
  });
  const rows = keyTable.map(([key, act]) => element("tr", {}, element("th", { scope: "row" }, element("kbd", {}, keyNames[key] || key)), element("td", {}, say("key." + act))));
  put(byId("keys-list"), element("table", {}, element("tbody", {}, rows)), element("p", {}, say("keys.tools")),
    element("p", {}, element("label", {}, box, " ", say("keys.single"))),
    element("p", {}, element("button", { type: "button", id: "keys-close", onclick: () => dialog.close() }, say("close-it"))),
    element("p", {}, element("button", { type: "button", id: "start-afresh", onclick: () => {
      dialog.close();
      startAfresh();
    } }, say("start-afresh"))));
  dialog.showModal();
}

const typing = (target) => target.closest("input:not([type=checkbox]), textarea, select");

function onKey(event) {
  if (byId("keys").open) return;
  if ((event.ctrlKey || event.metaKey) && !event.altKey && !typing(event.target)) {
    const act = { z: event.shiftKey ? "redo" : "undo", y: "redo", s: "save" }[event.key.toLowerCase()];
    if (!act) return;
    event.preventDefault();
    return acts[act]();
  }
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "s") {
    event.preventDefault();
    document.activeElement.blur();
    return save();
  }
  if (event.ctrlKey || event.metaKey) return;
  if (typing(event.target)) {
    if (event.key === "Escape") {
      event.target.blur();
      byId("pair").focus({ preventScroll: true });
    }
    return;
  }
  const onButton = event.target.closest("button, summary, a");
  if (!(onButton && event.key === "Enter") && tool.key(event)) return event.preventDefault();
  if (event.altKey || (onButton && (event.key === "Enter" || event.key === " "))) return;
  if (event.target.closest("#list") && (event.key === "ArrowDown" || event.key === "ArrowUp")) {
    event.preventDefault();
    acts[event.key === "ArrowDown" ? "next" : "previous"]();
    rows.get(current.id).button.focus();
    return;
  }
  if (event.key === "Escape") return put(byId("tool-form"));
  const found = singleKeys && keyTable.find(([key]) => key === event.key);
  if (!found) return;
  event.preventDefault();
  acts[found[1]]();
}
