// Circle, scale, length, angle: drawn by pointer, or by a cross that the arrow keys move.

let pendingMark = null; // circled before anybody said what it is

const tool = {
  name: "",
  view: null,
  points: [],
  mark: null,
  cross: null,
  open: false, // a line of the keyboard has begun

  // A sign is circled on the close photo; on the far one, where the fitting is.
  take(name, role) {
    if (this.name === name && (!role || this.view.role === role)) return this.drop();
    this.drop();
    const view = role ? views[role] : views[activeView].photo ? views[activeView] : views.close;
    if (!view.photo) return tell(say("tool.no-photo"));
    if (name === "length" && !cellOf("scale", view.photo.name)) {
      tell(say("tool.scale-first"));
      name = "scale";
    }
    this.name = name;
    this.view = view;
    this.mark = name === "circle" ? this.circleOn(view) : null;
    this.cross = null;
    view.frame.focus({ preventScroll: true });
    guide(say(name === "circle" && view.role === "far" ? "guide.circle-far" : "guide." + name));
    showTools();
    view.draw();
  },

  circleOn(view) {
    const look = lookOf(current.id, current.pass)?.look;
    return view.role === "close" ? markOf(selectedSign()?.mark) : look?.far === view.photo.name ? markOf(look["on-far"]) : null;
  },

  // The size that wheel or pinch gave counts, however soon the tool is laid down.
  sizedSo() {
    clearTimeout(this.timer);
    this.timer = 0;
    if (this.name === "circle" && this.mark) this.circled(false);
  },

  drop() {
    if (this.timer) this.sizedSo();
    const view = this.view;
    Object.assign(this, { name: "", view: null, points: [], mark: null, cross: null, open: false, from: null });
    guide("");
    put(byId("tool-form"));
    showTools();
    if (view) view.draw();
  },

  begin(view, point) {
    if (view !== this.view) {
      if (this.name === "length" && !cellOf("scale", view.photo.name)) return tell(say("tool.scale-first"));
      this.view = view;
      this.points = [];
      if (this.name === "circle") {
        this.mark = this.circleOn(view);
        guide(say(view.role === "far" ? "guide.circle-far" : "guide.circle"));
      }
    }
    this.cross = null;
    if (this.name === "circle") this.mark = { x: point.x, y: point.y, r: this.mark && !this.fresh ? this.mark.r : 0.06 };
    else if (this.points.length < this.wanted) this.points.push(point, point);
    this.from = point;
    this.dragged = false;
    view.draw();
  },

  drag(view, point) {
    if (view !== this.view || !this.from) return;
    if (this.name === "circle") {
      const r = distance(this.from, point);
      if (r > 0.01) {
        this.mark.r = bounded(r, 0.01, 0.5);
        this.dragged = true;
      }
    } else if (this.points.length > 0) {
      this.points[this.points.length - 1] = point;
      this.dragged = true;
    }
    view.draw();
  },

  end(view) {
    if (view !== this.view || !this.from) return;
    this.from = null;
    if (this.name === "circle") return this.circled(false);
    const n = this.points.length;
    if (n >= 2 && distance(this.points[n - 2], this.points[n - 1]) < 0.003) this.points.length = n - 2;
    this.lineEnds();
  },

  pinchBegins() {
    if (this.name === "circle") this.from = null;
    else if (this.points.length % 2 === 0 && this.from) this.points.length -= 2;
    this.from = null;
  },

  // Wheel and pinch size the circle; true if that is what they do now.
  sized(factor) {
    if (this.name !== "circle" || !this.mark) return false;
    this.mark.r = bounded(this.mark.r * factor, 0.01, 0.5);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.sizedSo(), 250);
    this.view.draw();
    return true;
  },

  get wanted() {
    return this.name === "angle" ? 4 : 2;
  },

  circled(over) {
    const mark = markText(this.mark);
    if (this.view.role === "far") return this.circledFar(mark, over);
    const sign = selectedSign();
    if (sign) changeSign(current.sign, { mark });
    else pendingMark = mark;
    guide(say(sign ? "guide.circled" : "guide.which-sign"));
    if (over) this.drop();
    if (!sign) {
      byId("add-sign").open = true;
      if (over) byId("add-sign").querySelector("button")?.focus();
    }
  },

  // Whoever circles the fitting on a photo says that it is on it.
  circledFar(mark, over) {
    const { id, pass } = current;
    const cell = withPhoto(id, pass, "far", this.view.photo.name);
    cell.look["on-far"] = mark;
    const proposed = copied(proposedOf(id, pass));
    if (proposed) delete proposed.far;
    change([[keyOf("look", id, pass), tidied(cell)], [keyOf("proposed", id, pass), proposed?.close ? proposed : undefined]]);
    guide(say("guide.circled"));
    if (over) this.drop();
  },

  lineEnds() {
    this.view.draw();
    if (this.points.length < this.wanted) return guide(say(this.name === "angle" && this.points.length === 2 ? "guide.angle-second" : "guide." + this.name));
    if (this.name === "scale") askScale();
    else askMeasure();
  },

  // True if the key was one of the tool's.
  key(event) {
    if (!this.name) return false;
    if (event.key === "Escape") {
      this.drop();
      return true;
    }
    const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const by = event.shiftKey ? 0.05 : event.altKey ? 0.0005 : 0.005;
    const view = this.view;
    if (steps[event.key]) {
      const [dx, dy] = steps[event.key];
      const moved = (p) => ({ x: bounded(p.x + dx * by, 0, 1), y: bounded(p.y + dy * by, 0, view.ratio) });
      if (this.name === "circle") {
        this.mark = this.mark || { x: 0.5, y: view.ratio / 2, r: 0.06 };
        Object.assign(this.mark, moved(this.mark));
      } else {
        this.cross = moved(this.cross || { x: 0.5, y: view.ratio / 2 });
        if (this.open) this.points[this.points.length - 1] = this.cross;
      }
      view.draw();
      return true;
    }
    if (event.key === "+" || event.key === "-") {
      if (this.name !== "circle") return false;
      this.mark = this.mark || { x: 0.5, y: view.ratio / 2, r: 0.06 };
      this.mark.r = bounded(this.mark.r * (event.key === "+" ? 1.1 : 1 / 1.1), 0.01, 0.5);
      view.draw();
      return true;
    }
    if (event.key === "Enter") {
      if (this.name === "circle") {
        this.mark = this.mark || { x: 0.5, y: view.ratio / 2, r: 0.06 };
        this.circled(true);
        return true;
      }
      this.cross = this.cross || { x: 0.5, y: view.ratio / 2 };
      if (!this.open) {
        if (this.points.length >= this.wanted) return true;
        this.points.push(this.cross, this.cross);
        this.open = true;
      } else {
        this.open = false;
        const n = this.points.length;
        if (distance(this.points[n - 2], this.points[n - 1]) < 0.003) this.points.length = n - 2;
        this.lineEnds();
      }
      view.draw();
      return true;
    }
    return false;
  },
};

function guide(text) {
  byId("telling").textContent = text;
}

const tools = [["circle", "m"], ["scale", "s"], ["length", "l"], ["angle", "g"], ["zoom", "z"]];

function showTools() {
  for (const view of Object.values(views)) view.touch();
  put(byId("tools"), tools.map(([name, key]) => {
    const pressed = name === "zoom" ? undefined : String(tool.name === name);
    const act = () => (name === "zoom" ? views[activeView].toggleOriginal() : tool.take(name));
    return element("button", { type: "button", id: "tool-" + name, "aria-pressed": pressed, onclick: act }, say("tool." + name), " ", element("kbd", {}, key));
  }));
}

const pixels = () => tool.view.photo.width;

// How long the line is that was drawn: of something whose size the survey knows, or as typed.
function askScale() {
  const fitting = fittingById.get(current.id);
  const points = tool.points.slice(0, 2);
  const photo = tool.view.photo.name;
  const give = (of, length) => {
    if (millimetres(length) === null) return tell(say("tool.no-length", { text: length }));
    if (!of.trim()) return tell(say("tool.of-what"));
    setScale(photo, { length: length.trim(), of: of.trim(), along: lineText(points) });
    tool.drop();
    guide(say("guide.scaled", { photo, of, length }));
  };
  const known = fitting.known.map((one, i) =>
    element("button", { type: "button", id: "known-" + i, onclick: () => give(one.of, one.length) }, one.of + ", " + one.length));
  const of = element("input", { id: "scale-of", maxlength: "60" });
  const length = element("input", { id: "scale-length", placeholder: "8 mm", size: "8" });
  const typed = element("form", { class: "typed" },
    element("label", {}, say("tool.of"), " ", of), element("label", {}, say("tool.length-of"), " ", length),
    element("button", { type: "submit" }, say("tool.set")));
  typed.addEventListener("submit", (event) => {
    event.preventDefault();
    give(of.value, length.value);
  });
  put(byId("tool-form"), element("p", {}, say("tool.how-long")), element("div", { class: "choices" }, known), typed);
  (byId("known-0") || of).focus();
}

// Whatever was measured with the scale before follows it.
function setScale(photo, cell) {
  const entries = [[keyOf("scale", photo), cell]];
  if (cell)
    for (const [key, measured] of now) {
      if (!key.startsWith("measured\n") || measured.from !== photo) continue;
      const points = lineOf(measured.along);
      if (points.length === 2) entries.push([key, { ...measured, value: plain(measuredLength(points, cell), 2) + " mm" }]);
    }
  change(entries);
}

// What the line or the angle is a measure of.
function askMeasure() {
  const fitting = fittingById.get(current.id);
  const angle = tool.name === "angle";
  const photo = tool.view.photo.name;
  // The value is that of the lines as they are written down.
  const along = lineText(tool.points);
  const points = lineOf(along);
  const scale = cellOf("scale", photo);
  const value = angle ? angleBetween(points) : measuredLength(points, scale);
  const within = angle ? angleUncertainty(points, pixels()) : lengthUncertainty(value, points, lineOf(scale.along), pixels());
  const text = angle ? plain(value, 1) + "°" : plain(value, 2) + " mm";
  const told = say("tool.value", { value: text, within: plain(within, angle ? 1 : 2) + (angle ? "°" : " mm") });
  const choices = (data.kinds[fitting.kind]?.measures || []).filter((one) => one.angle === angle);
  const fits = (one) => value >= one.least && value <= one.most;
  const buttons = choices.map((one, i) =>
    element("button", { type: "button", id: "measure-" + i, disabled: !fits(one), onclick: () => {
      change([[keyOf("measured", fitting.id, one.id), { value: text, from: photo, along }]]);
      tool.drop();
      guide(say("guide.measured", { what: one.name, value: text }));
    } }, one.name));
  const again = element("button", { type: "button", onclick: () => {
    tool.points = [];
    put(byId("tool-form"));
    tool.view.draw();
    tool.view.frame.focus({ preventScroll: true });
  } }, say("tool.again"));
  const sign = selectedSign();
  const toSign = !angle && sign
    ? element("button", { type: "button", id: "measure-sign", onclick: () => {
        changeSign(current.sign, { length: text });
        tool.drop();
      } }, say("tool.of-sign", { sign: signRule(fitting, sign.code)?.name || sign.code }))
    : null;
  put(byId("tool-form"), element("p", { id: "measured-value" }, told), element("p", { class: "hint" }, say("tool.plane")),
    element("div", { class: "choices" }, buttons, toSign, again));
  (byId("tool-form").querySelector("button:not([disabled])") || again).focus();
}
