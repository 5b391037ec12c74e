// Elements made one by one: a text is put in as text, never as markup.

const SVG = "http://www.w3.org/2000/svg";

function fill(made, properties, children) {
  for (const [name, value] of Object.entries(properties || {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else made.setAttribute(name, value === true ? "" : value);
  }
  for (const child of children.flat()) if (child !== undefined && child !== null) made.append(child);
  return made;
}

const element = (tag, properties, ...children) => fill(document.createElement(tag), properties, children);
const drawn = (tag, properties, ...children) => fill(document.createElementNS(SVG, tag), properties, children);
const byId = (id) => document.getElementById(id);

// A drawing of the page's own, by its id.
const drawing = (id, name) =>
  drawn("svg", { class: name, "aria-hidden": "true", viewBox: "0 0 24 24" }, drawn("use", { href: "#" + id }));

const shape = (verdict) => drawing("verdict-" + verdict, "shape");

// What stands in `place` gives way; the focus stays where it was, if that is there again.
function put(place, ...children) {
  const focused = place.contains(document.activeElement) ? document.activeElement.id : "";
  place.replaceChildren(...children.flat().filter((child) => child !== undefined && child !== null));
  if (focused && byId(focused)) byId(focused).focus({ preventScroll: true });
}
