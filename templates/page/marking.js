// The page as a whole: goes to a fitting, shows it, keeps what changes.

function tell(text, ...more) {
  put(byId("notice"), text ? element("p", {}, text, " ", more, element("button", { type: "button", "aria-label": say("close-it"), onclick: () => put(byId("notice")) }, "×")) : null);
}

function showTitle() {
  const fitting = fittingById.get(current.id);
  const worst = worstOf(fitting);
  byId("name").textContent = fitting.name;
  byId("facts").textContent = [data.kinds[fitting.kind]?.name || fitting.kind, fitting.height, fitting.id].concat(fitting.before || []).join(" · ");
  put(byId("verdict"), worst ? [shape(worst), element("span", { class: "unseen-text" }, say("verdict." + worst))] : null);
  const missing = missingOf(fitting);
  put(byId("missing"), missing.length > 0
    ? element("ul", { class: "missing" }, missing.map((one) => element("li", {}, missingText(one))))
    : element("p", { class: "quiet" }, say("complete")));
}

function showPasses() {
  put(byId("passes"), passes.map((pass) =>
    element("button", { type: "button", id: "pass-" + pass, "aria-pressed": String(pass === current.pass), onclick: () => turn(pass) },
      (pass === "up" ? "↑ " : "↓ ") + passWord(pass), " ",
      element("span", { class: "quiet" }, lookOf(current.id, pass)?.look.at || (unseenOf(current.id, pass) ? say("not-seen-short") : "–")))),
    proposedOf(current.id, current.pass)
      ? element("button", { type: "button", id: "accept", class: "first", onclick: acts.accept }, say("accept"), " ", element("kbd", {}, "Enter"))
      : null);
}

function showPhotos() {
  const look = lookOf(current.id, current.pass)?.look || {};
  const proposed = proposedOf(current.id, current.pass) || {};
  const ringed = look["on-far"];
  for (const view of ["far", "close"]) {
    const said = look[view];
    views[view].show(said || proposed[view], !said && proposed[view] ? (proposed.sure ? "sure" : "doubt") : "");
    put(views[view].buttons,
      element("button", { type: "button", id: "put-" + view, onclick: () => acts[view]() }, say("put." + view)),
      view === "far" && (said || proposed.far)
        ? element("button", { type: "button", id: "circle-far", onclick: () => tool.take("circle", "far") }, say(ringed ? "circle-again" : "circle-far"))
        : null,
      view === "far" && ringed ? element("button", { type: "button", id: "no-circle-far", onclick: () => changeLook({ "on-far": undefined }) }, say("no-circle")) : null,
      said || proposed[view] ? element("button", { type: "button", id: "none-" + view, onclick: () => {
        activeView = view;
        acts.none();
      } }, say("put.none")) : null);
  }
}

function showAll() {
  showTitle();
  showPasses();
  showPhotos();
  showTools();
  showLooked();
  showSigns();
  showSchematic();
  showMeasures();
  showOtherPass();
  markRoll();
  showHand();
}

function go(id) {
  const last = current.id;
  if (tool.name) tool.drop();
  put(byId("tool-form"));
  guide("");
  pendingMark = null;
  current.id = id;
  current.sign = 0;
  byId("add-sign")?.removeAttribute("open");
  showAll();
  markCurrent(last);
  handFollows();
  keepLater();
}

function turn(pass) {
  current.pass = pass;
  go(current.id);
}

let waiting = 0;
function keepLater() {
  clearTimeout(waiting);
  waiting = setTimeout(keep, 400);
}

function startAfresh() {
  forget();
  for (const fitting of fittings) showRow(fitting);
  showBar();
  filterList();
  go(current.id);
  tell(say("notice.afresh"));
}

function changed(keys) {
  const touched = new Set(keys.map((key) => key.split("\n")[1]));
  for (const id of touched) if (fittingById.has(id)) showRow(fittingById.get(id));
  showBar();
  filterList();
  const cell = lookOf(current.id, current.pass);
  current.sign = Math.max(0, Math.min(current.sign, (cell?.signs.length || 1) - 1));
  showAll();
  keep();
}

function offerLeftOver() {
  const [old] = leftOver();
  if (!old) return;
  tell(say("notice.left-over"), element("button", { type: "button", onclick: () => {
    hand(old.xml, "marks-" + data.survey.number.replace(/[^A-Za-z0-9._-]/g, "_") + "-" + stamp() + ".xml");
    localStorage.removeItem(old.key);
    tell(say("notice.handed"));
  } }, say("save")));
}

function begin() {
  speak(document);
  byId("yacht").textContent = data.survey.yacht === "?" ? "" : data.survey.yacht;
  byId("number").textContent = say("survey", { number: data.survey.number });
  put(byId("views"), views.far.figure, views.close.figure);
  const went = goOn();
  watchers.push(changed);
  buildList();
  for (const fitting of fittings) showRow(fitting);
  showBar();
  buildRoll();
  for (const [id, act] of [["undo", "undo"], ["redo", "redo"], ["save", "save"], ["help", "help"], ["next", "next"], ["previous", "previous"], ["next-missing", "nextMissing"]])
    byId(id).addEventListener("click", () => acts[act]());
  byId("open-list").addEventListener("click", () => openList(!byId("list").classList.contains("out")));
  byId("only-missing").addEventListener("change", filterList);
  document.addEventListener("keydown", onKey);
  window.addEventListener("resize", () => Object.values(views).forEach((view) => view.fit()));
  window.addEventListener("pagehide", keep);
  window.addEventListener("beforeunload", (event) => {
    keep();
    if (forgetful && done.length !== saved) event.preventDefault();
  });
  if (fittings.length > 0) go(current.id);
  if (went) tell(say("notice.went-on", { n: xmlOf().count }), element("button", { type: "button", id: "afresh", onclick: startAfresh }, say("start-afresh")));
  else offerLeftOver();
  byId("pair").focus({ preventScroll: true });
  document.documentElement.dataset.ready = "yes";
}

begin();
