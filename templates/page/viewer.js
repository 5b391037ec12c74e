// A photo to look at: fitted, enlarged, moved; what is drawn on it stands in fractions of its width.

class View {
  constructor(role) {
    this.role = role; // far or close
    this.photo = null;
    this.zoom = 1;
    this.x = 0;
    this.y = 0;
    this.pointers = new Map();
    this.small = element("img", { alt: "", class: "small", draggable: "false" });
    this.large = element("img", { alt: "", class: "large", draggable: "false" });
    this.large.addEventListener("load", () => this.large.classList.add("there"));
    this.large.addEventListener("error", () => this.caption.append(" ", element("em", {}, say("large-missing"))));
    this.overlay = drawn("svg", { class: "overlay", "aria-hidden": "true" });
    this.sheet = element("div", { class: "sheet" }, this.small, this.large, this.overlay);
    this.frame = element("div", { class: "frame", tabindex: "0", id: "view-" + role, role: "img" }, this.sheet);
    this.caption = element("figcaption", {});
    this.buttons = element("div", { class: "slot-acts" });
    this.figure = element("figure", { class: "slot", "data-slot": role }, this.caption, this.frame, this.buttons);
    this.listen();
  }

  show(name, proposed) {
    const photo = name ? photoByName.get(name) : null;
    this.figure.classList.toggle("proposed", Boolean(proposed));
    this.figure.classList.toggle("empty", !name);
    const words = [element("b", {}, say(this.role))];
    if (name) words.push(" ", name + (photo?.at ? ", " + photo.at : ""));
    if (name && !photo) words.push(" ", element("em", {}, say("photo-missing")));
    if (photo?.trouble) words.push(" ", element("em", {}, photo.trouble));
    if (proposed) words.push(" ", element("span", { class: "tag" }, say(proposed === "sure" ? "proposed-sure" : "proposed-doubt")));
    put(this.caption, words);
    this.frame.setAttribute("aria-label", name ? say("view-label", { view: say(this.role), photo: name }) : say("no-photo", { view: say(this.role) }));
    if (photo === this.photo) return this.draw();
    this.photo = photo;
    this.large.classList.remove("there");
    this.large.removeAttribute("src");
    if (photo?.small) this.small.src = photo.small;
    else this.small.removeAttribute("src");
    if (photo && !photo.trouble) this.large.src = photo.address;
    this.ratio = photo && photo.width ? photo.height / photo.width : 0.75;
    this.overlay.setAttribute("viewBox", "0 0 1 " + this.ratio);
    this.fit();
    this.draw();
  }

  // Pixels on the screen for one width of the photo.
  get across() {
    const { clientWidth: w, clientHeight: h } = this.frame;
    return Math.min(w, h / (this.ratio || 0.75)) * this.zoom;
  }

  fit() {
    this.zoom = 1;
    this.x = this.y = 0;
    this.lay();
  }

  lay() {
    const { clientWidth: w, clientHeight: h } = this.frame;
    const width = this.across;
    const height = width * (this.ratio || 0.75);
    this.touch();
    const most = (room, size) => Math.max(0, (size - room) / 2) + (size > room ? room / 4 : 0);
    this.x = bounded(this.x, -most(w, width), most(w, width));
    this.y = bounded(this.y, -most(h, height), most(h, height));
    Object.assign(this.sheet.style, {
      width: width + "px",
      height: height + "px",
      transform: "translate(" + ((w - width) / 2 + this.x) + "px," + ((h - height) / 2 + this.y) + "px)",
    });
  }

  // A finger scrolls the page over a photo that is fitted and not drawn on.
  touch() {
    this.frame.style.touchAction = tool.name || this.zoom > 1.01 ? "none" : "pan-y";
  }

  // One pixel of the photo on one of the screen.
  get original() {
    return this.photo ? this.photo.width / (window.devicePixelRatio || 1) / (this.across / this.zoom) : 1;
  }

  zoomTo(zoom, at) {
    const { left, top, width, height } = this.frame.getBoundingClientRect();
    const point = at || { x: left + width / 2, y: top + height / 2 };
    const dx = point.x - left - width / 2;
    const dy = point.y - top - height / 2;
    const next = bounded(zoom, 1, Math.max(8, this.original * 4));
    this.x = dx - ((dx - this.x) * next) / this.zoom;
    this.y = dy - ((dy - this.y) * next) / this.zoom;
    this.zoom = next;
    this.lay();
  }

  toggleOriginal() {
    if (this.zoom > 1.01) return this.fit();
    const mark = markOf(selectedSign()?.mark);
    this.zoomTo(Math.max(1.5, this.original));
    if (mark && this.role === "close") this.centre({ x: mark.x, y: mark.y });
  }

  centre(point) {
    this.x = (0.5 - point.x) * this.across;
    this.y = (0.5 * this.ratio - point.y) * this.across;
    this.lay();
  }

  pointOf(event) {
    const box = this.sheet.getBoundingClientRect();
    return { x: bounded((event.clientX - box.left) / box.width, 0, 1), y: bounded((event.clientY - box.top) / box.width, 0, this.ratio) };
  }

  listen() {
    const frame = this.frame;
    frame.addEventListener("wheel", (event) => {
      if (!this.photo) return;
      event.preventDefault();
      const factor = Math.exp(-event.deltaY / 500);
      if (tool.view === this && tool.sized(factor)) return;
      this.zoomTo(this.zoom * factor, { x: event.clientX, y: event.clientY });
    }, { passive: false });
    frame.addEventListener("pointerdown", (event) => {
      if (!this.photo || event.button > 0) return;
      activeView = this.role;
      frame.focus({ preventScroll: true });
      frame.setPointerCapture(event.pointerId);
      this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
      if (this.pointers.size === 2) {
        this.pinch = this.spread();
        if (tool.view === this) tool.pinchBegins();
      } else if (tool.name) {
        tool.begin(this, this.pointOf(event));
      }
      event.preventDefault();
    });
    frame.addEventListener("pointermove", (event) => {
      const last = this.pointers.get(event.pointerId);
      if (!last) return;
      this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
      if (this.pointers.size === 2) {
        const spread = this.spread();
        const factor = spread.d / this.pinch.d;
        if (!(tool.view === this && tool.sized(factor))) {
          this.x += spread.x - this.pinch.x;
          this.y += spread.y - this.pinch.y;
          this.zoomTo(this.zoom * factor, spread);
        }
        this.pinch = spread;
      } else if (tool.name) {
        tool.drag(this, this.pointOf(event));
      } else {
        this.x += event.clientX - last.x;
        this.y += event.clientY - last.y;
        this.lay();
      }
    });
    const end = (event) => {
      const held = this.pointers.delete(event.pointerId);
      if (held && this.pointers.size === 0 && tool.name) tool.end(this);
    };
    frame.addEventListener("pointerup", end);
    frame.addEventListener("pointercancel", end);
    frame.addEventListener("dblclick", () => !tool.name && this.toggleOriginal());
    frame.addEventListener("focus", () => {
      activeView = this.role;
    });
  }

  spread() {
    const [a, b] = [...this.pointers.values()];
    return { d: Math.max(1, Math.hypot(a.x - b.x, a.y - b.y)), x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  }

  // Rings of signs, lines of measures and of the scale, and what the tool is about to draw.
  draw() {
    const marks = [];
    const ring = (mark, name) => {
      marks.push(drawn("circle", { cx: mark.x, cy: mark.y, r: mark.r, class: "ring-under" }));
      marks.push(drawn("circle", { cx: mark.x, cy: mark.y, r: mark.r, class: "ring " + name }));
    };
    const line = (a, b, name) => {
      for (const one of ["line-under", "line " + name]) marks.push(drawn("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, class: one }));
    };
    const lines = (points, name) => {
      for (let i = 0; i + 1 < points.length; i += 2) line(points[i], points[i + 1], name);
    };
    if (this.photo) {
      const look = lookOf(current.id, current.pass);
      if (this.role === "close" && look && look.look.close === this.photo.name)
        look.signs.forEach((sign, i) => markOf(sign.mark) && ring(markOf(sign.mark), i === current.sign ? "chosen" : ""));
      if (this.role === "far" && look && look.look.far === this.photo.name && markOf(look.look["on-far"]))
        ring(markOf(look.look["on-far"]), "");
      const scale = cellOf("scale", this.photo.name);
      if (scale) lines(lineOf(scale.along), "scale");
      for (const measure of data.kinds[fittingById.get(current.id).kind]?.measures || []) {
        const cell = cellOf("measured", current.id, measure.id);
        if (cell?.from === this.photo.name) lines(lineOf(cell.along), "");
      }
      if (tool.view === this) {
        if (tool.mark) ring(tool.mark, "draft");
        lines(tool.points, "draft");
        if (tool.cross) {
          const { x, y } = tool.cross;
          line({ x: x - 0.02, y }, { x: x + 0.02, y }, "cross");
          line({ x, y: y - 0.02 }, { x, y: y + 0.02 }, "cross");
        }
      }
    }
    this.overlay.replaceChildren(...marks);
  }
}

let activeView = "close";
const views = { far: new View("far"), close: new View("close") };
