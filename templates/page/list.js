// All fittings in climbing order, with what is missing about each.

const rows = new Map(); // id -> {row, button, missing}
let gaps = new Map(); // id -> list

function buildList() {
  const items = [];
  let station = "";
  for (const fitting of fittings) {
    if (fitting.station !== station) {
      station = fitting.station;
      items.push(element("li", { class: "station" }, say("station." + station.replace(/-\d$/, ""), { n: station.slice(-1) })));
    }
    const button = element("button", { type: "button", "data-fitting": fitting.id, tabindex: "-1", onclick: () => {
      go(fitting.id);
      openList(false);
    } });
    const row = element("li", {}, button);
    rows.set(fitting.id, { row, button });
    items.push(row);
  }
  put(byId("fittings"), items);
}

function showRow(fitting) {
  const missing = missingOf(fitting);
  gaps.set(fitting.id, missing);
  const { row, button } = rows.get(fitting.id);
  const worst = worstOf(fitting);
  const proposed = passes.some((pass) => proposedOf(fitting.id, pass));
  put(button,
    element("span", { class: "mark" }, worst ? shape(worst) : element("span", { class: missing.length > 0 ? "open" : "full", "aria-hidden": "true" }, missing.length > 0 ? "" : "✓")),
    element("span", { class: "what" }, fitting.name, worst ? element("span", { class: "unseen-text" }, " " + say("verdict." + worst)) : null,
      element("span", { class: "gap" }, missing.length > 0 ? missingText(missing[0]) + (missing.length > 1 ? " +" + (missing.length - 1) : "") : say("complete"), proposed ? ", " + say("has-proposal") : "")));
  row.classList.toggle("has-gap", missing.length > 0);
}

function showBar() {
  let full = 0;
  for (const fitting of fittings) if (gaps.get(fitting.id)?.length === 0) ++full;
  const progress = byId("progress");
  progress.setAttribute("aria-valuemax", String(fittings.length));
  progress.setAttribute("aria-valuenow", String(full));
  byId("bar").style.width = (fittings.length > 0 ? (100 * full) / fittings.length : 0) + "%";
  byId("amount").textContent = say("amount", { full, all: fittings.length });
  byId("undo").disabled = done.length === 0;
  byId("redo").disabled = undone.length === 0;
  byId("save").classList.toggle("unsaved", done.length !== saved);
}

const filtered = () => byId("only-missing").checked;
const inList = (fitting) => !filtered() || gaps.get(fitting.id).length > 0 || fitting.id === current.id;

function filterList() {
  for (const fitting of fittings) rows.get(fitting.id).row.hidden = !inList(fitting);
}

function markCurrent(last) {
  const old = rows.get(last);
  if (old) {
    old.button.removeAttribute("aria-current");
    old.button.tabIndex = -1;
  }
  const { row, button } = rows.get(current.id);
  button.setAttribute("aria-current", "true");
  button.tabIndex = 0;
  row.hidden = false;
  const list = byId("list");
  if (row.offsetTop < list.scrollTop + 60 || row.offsetTop > list.scrollTop + list.clientHeight - 80)
    list.scrollTop = row.offsetTop - list.clientHeight / 3;
}

function openList(open) {
  byId("list").classList.toggle("out", open);
  byId("open-list").setAttribute("aria-expanded", String(open));
  if (open) rows.get(current.id)?.button.focus();
}
