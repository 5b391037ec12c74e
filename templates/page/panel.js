// About the fitting in hand: the look, its signs, where they are, measures, and what the other pass said.

const current = { id: fittings.length > 0 ? fittings[0].id : "", pass: "up", sign: 0 };
const selectedSign = () => lookOf(current.id, current.pass)?.signs[current.sign];

function changeLook(properties) {
  const cell = copied(lookOf(current.id, current.pass)) || emptyLook();
  Object.assign(cell.look, properties);
  change([[keyOf("look", current.id, current.pass), tidied(cell)]]);
}

function changeSign(i, properties) {
  const cell = copied(lookOf(current.id, current.pass));
  if (!cell?.signs[i]) return;
  Object.assign(cell.signs[i], properties);
  for (const [name, value] of Object.entries(cell.signs[i])) if (!value) delete cell.signs[i][name];
  change([[keyOf("look", current.id, current.pass), tidied(cell)]]);
}

function addSign(code) {
  const cell = copied(lookOf(current.id, current.pass)) || emptyLook();
  const sign = { code };
  if (pendingMark) sign.mark = pendingMark;
  pendingMark = null;
  cell.signs.push(sign);
  if (!cell.look.at) cell.look.at = timeOf(cell.look.close || cell.look.far);
  current.sign = cell.signs.length - 1;
  change([[keyOf("look", current.id, current.pass), tidied(cell)]]);
  byId("add-sign").open = false;
  byId("sign-words-" + current.sign)?.focus();
}

function removeSign(i) {
  const cell = copied(lookOf(current.id, current.pass));
  cell.signs.splice(i, 1);
  current.sign = Math.max(0, Math.min(current.sign, cell.signs.length - 1));
  change([[keyOf("look", current.id, current.pass), tidied(cell)]]);
}

// A field with its label; what was typed counts when it is left, or on Enter.
function field(id, label, value, on, more) {
  const input = element("input", { id, value: value || "", autocomplete: "off", ...more });
  input.addEventListener("change", () => on(input.value.trim()));
  return element("label", { class: "field" }, element("span", {}, label), input);
}

function showLooked() {
  const { id, pass } = current;
  const cell = lookOf(id, pass);
  const reasonHere = cellOf("unseen", id, pass)?.reason;
  const reasonBoth = cellOf("unseen", id, "both")?.reason;
  const unseen = (scope) => (reason) => {
    const entries = [[keyOf("unseen", id, scope), reason ? { reason } : undefined]];
    change(entries);
  };
  const atTime = (at) => {
    const bare = at.replace(/\s*\?$/, "");
    if (bare && !/^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(bare)) {
      showLooked();
      return tell(say("no-time", { text: at }));
    }
    changeLook({ at: bare });
  };
  const withLook = cell !== undefined;
  put(byId("looked"),
    element("div", { class: "row" },
      field("at", say("at"), cell?.look.at, atTime, { inputmode: "numeric", placeholder: "09:14", maxlength: "10" }),
      field("because", say("because"), cell?.look.because, (because) => changeLook({ because }), { maxlength: "500" })),
    withLook ? null : element("div", { class: "row" },
      field("unseen-here", say("unseen-here", { pass: passWord(pass) }), reasonHere, unseen(pass), { maxlength: "500" }),
      passes.some((one) => lookOf(id, one)) ? null : field("unseen-both", say("unseen-both"), reasonBoth, unseen("both"), { maxlength: "500" })));
}

function signRow(fitting, sign, i) {
  const rule = signRule(fitting, sign.code);
  const chosen = i === current.sign;
  const choose = () => {
    current.sign = i;
    showSigns();
    showSchematic();
    views.close.draw();
  };
  const head = element("button", { type: "button", class: "sign-head", id: "sign-" + i, "aria-expanded": String(chosen), onclick: choose },
    rule ? shape(rule.verdict) : null,
    element("span", {}, element("b", {}, say("verdict." + (rule?.verdict || "watch"))), " ", rule?.name || sign.code));
  if (!chosen) return element("li", {}, head, sign.words ? element("p", { class: "quiet" }, sign.words) : null);
  const set = (name) => (value) => changeSign(i, { [name]: value });
  const words = element("textarea", { id: "sign-words-" + i, rows: "2", maxlength: "3000" });
  words.value = sign.words || "";
  words.addEventListener("change", () => changeSign(i, { words: words.value.replace(/\s+/g, " ").trim() }));
  const number = (value) => {
    if (value && !/^[1-9]\d{0,2}$/.test(value)) return tell(say("tool.no-count", { text: value }));
    changeSign(i, { count: value });
  };
  const long = (value) => {
    if (value && millimetres(value) === null) return tell(say("tool.no-length", { text: value }));
    changeSign(i, { length: value });
  };
  return element("li", { class: "open" }, head,
    rule && fitting.bars.includes(sign.code) ? element("p", { class: "plate" }, say("bars")) : null,
    rule?.means ? element("p", { class: "quiet" }, rule.means) : null,
    element("label", { class: "field" }, element("span", {}, say("words")), words),
    element("div", { class: "row" },
      field("sign-where-" + i, say("where-on-it"), sign.where, set("where"), { maxlength: "60" }),
      field("sign-count-" + i, say("count"), sign.count, number, { inputmode: "numeric", size: "4" }),
      field("sign-length-" + i, say("length"), sign.length, long, { placeholder: "7 mm", size: "7" })),
    element("div", { class: "choices" },
      element("button", { type: "button", id: "circle-" + i, onclick: () => tool.take("circle", "close") }, say(sign.mark ? "circle-again" : "tool.circle"), " ", element("kbd", {}, "m")),
      sign.mark ? element("button", { type: "button", onclick: () => changeSign(i, { mark: undefined }) }, say("no-circle")) : null,
      element("button", { type: "button", onclick: () => removeSign(i) }, say("remove"))));
}

function showSigns() {
  const fitting = fittingById.get(current.id);
  const signs = lookOf(current.id, current.pass)?.signs || [];
  const open = byId("add-sign")?.open;
  const choices = (data.kinds[fitting.kind]?.signs || []).map((rule, i) =>
    element("li", {}, element("button", { type: "button", id: "add-" + i, "data-code": rule.code, onclick: () => addSign(rule.code) },
      shape(rule.verdict), element("span", {}, element("b", {}, say("verdict." + rule.verdict)), " ", rule.name))));
  const add = element("details", { id: "add-sign", open: open && "" }, element("summary", { id: "add-summary" }, say("add-sign"), " ", element("kbd", {}, "i")), element("ul", { class: "signs" }, choices));
  add.addEventListener("keydown", (event) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const at = choices.findIndex((one) => one.contains(document.activeElement));
    if (by === undefined || (at < 0 && document.activeElement.id !== "add-summary")) return;
    event.preventDefault();
    event.stopPropagation();
    choices[bounded(at + by, 0, choices.length - 1)].firstChild.focus();
  });
  put(byId("signs"), signs.length > 0 ? element("ul", { class: "signs said" }, signs.map((sign, i) => signRow(fitting, sign, i))) : element("p", { class: "quiet" }, say("no-sign")), add);
}

const plainLabel = (text) => String(text || "").toLowerCase().replace(/[-/']/g, " ").replace(/\s+/g, " ").trim();

function showSchematic() {
  const fitting = fittingById.get(current.id);
  const kind = data.kinds[fitting.kind];
  const schematic = data.schematics[kind?.schematic];
  if (!schematic) return put(byId("schematic"));
  const sign = selectedSign();
  const usual = sign ? signRule(fitting, sign.code)?.at : "";
  const chosen = schematic.spots.find((one) => sign?.where && (plainLabel(one.label) === plainLabel(sign.where) || plainLabel(one.key) === plainLabel(sign.where)))
    || schematic.spots.find((one) => one.key === usual);
  const picture = drawn("svg", { viewBox: "0 0 " + schematic.width + " " + schematic.height, role: "img", "aria-label": schematic.alternative },
    drawn("use", { href: "#schematic-" + kind.schematic, width: schematic.width, height: schematic.height }),
    chosen && sign ? drawn("circle", { cx: chosen.x, cy: chosen.y, r: 7, class: "spot-under" }) : null,
    chosen && sign ? drawn("circle", { cx: chosen.x, cy: chosen.y, r: 7, class: "spot-ring" }) : null);
  picture.addEventListener("click", (event) => {
    const box = picture.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * schematic.width;
    const y = ((event.clientY - box.top) / box.height) * schematic.height;
    const nearest = [...schematic.spots].sort((a, b) => Math.hypot(a.x - x, a.y - y) - Math.hypot(b.x - x, b.y - y))[0];
    if (nearest) pick(nearest);
  });
  const pick = (spot) => (selectedSign() ? changeSign(current.sign, { where: spot.label }) : tell(say("sign-first")));
  put(byId("schematic"), picture,
    element("div", { class: "choices spots" }, schematic.spots.map((spot, i) =>
      element("button", { type: "button", id: "spot-" + i, "aria-pressed": String(Boolean(sign && sign.where && spot === chosen)), onclick: () => pick(spot) }, spot.label))),
    kind.look ? element("p", { class: "quiet" }, kind.look) : null);
}

function showMeasures() {
  const fitting = fittingById.get(current.id);
  const rows = [];
  for (const [key, cell] of now) {
    const [what, id, name] = key.split("\n");
    if (what !== "measured" || id !== current.id) continue;
    const called = data.kinds[fitting.kind]?.measures.find((one) => one.id === name)?.name || name;
    rows.push(element("li", {}, element("span", {}, called + " ", element("b", {}, cell.value), cell.from ? " " + say("on-photo", { photo: cell.from }) : ""),
      element("button", { type: "button", onclick: () => change([[key, undefined]]) }, say("remove"))));
  }
  const shown = [...new Set(["far", "close"].map((view) => views[view].photo?.name).filter(Boolean))];
  for (const photo of shown) {
    const scale = cellOf("scale", photo);
    if (!scale) continue;
    const used = [...now].some(([key, cell]) => key.startsWith("measured\n") && cell.from === photo && lineOf(cell.along).length === 2);
    rows.push(element("li", {}, element("span", {}, say("scale-of", { photo, of: scale.of, length: scale.length })),
      used ? null : element("button", { type: "button", onclick: () => setScale(photo, undefined) }, say("remove"))));
  }
  put(byId("measures"), rows.length > 0 ? element("ul", { class: "rows" }, rows) : element("p", { class: "quiet" }, say("nothing-measured")));
}

function showOtherPass() {
  const fitting = fittingById.get(current.id);
  const other = current.pass === "up" ? "down" : "up";
  byId("other-pass-title").textContent = say("other-pass", { pass: passWord(other) });
  const cell = lookOf(current.id, other);
  const reason = unseenOf(current.id, other)?.reason;
  if (!cell) return put(byId("other-pass"), element("p", { class: "quiet" }, reason ? say("not-seen", { reason }) : say("not-looked")));
  const photosOf = ["far", "close"].filter((view) => cell.look[view]).map((view) => say(view) + " " + cell.look[view]);
  put(byId("other-pass"), element("p", {}, element("b", {}, cell.look.at || "?"), photosOf.length > 0 ? ", " + photosOf.join(", ") : ""),
    cell.signs.length === 0 ? element("p", { class: "quiet" }, say("no-sign")) : element("ul", { class: "signs" }, cell.signs.map((sign) => {
      const rule = signRule(fitting, sign.code);
      return element("li", { class: "told" }, rule ? shape(rule.verdict) : null, element("span", {}, element("b", {}, say("verdict." + (rule?.verdict || "watch"))), " ", rule?.name || sign.code, sign.words ? ": " + sign.words : ""));
    })));
}
