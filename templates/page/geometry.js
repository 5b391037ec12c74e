// Points on a photo are fractions of its width, right and down from its top left corner.

// In a survey numbers have a point and no exponent.
const plain = (number, decimals) => String(Number(number.toFixed(decimals)));
const bounded = (number, least, most) => Math.min(most, Math.max(least, number));
const distance = (a, b) => Math.hypot(b.x - a.x, b.y - a.y);

const markText = (mark) => [mark.x, mark.y, mark.r].map((n) => plain(n, 4)).join(" ");
function markOf(text) {
  const [x, y, r] = String(text || "").split(" ").map(Number);
  return r > 0 ? { x, y, r } : null;
}

const lineText = (points) => points.map((p) => plain(p.x, 5) + " " + plain(p.y, 5)).join(" ");
function lineOf(text) {
  const numbers = String(text || "").split(" ").map(Number);
  const points = [];
  for (let i = 0; i + 1 < numbers.length; i += 2) points.push({ x: numbers[i], y: numbers[i + 1] });
  return points;
}

// Between two lines, each drawn away from where they meet: 0 … 180.
function angleBetween(points) {
  const a = { x: points[1].x - points[0].x, y: points[1].y - points[0].y };
  const b = { x: points[3].x - points[2].x, y: points[3].y - points[2].y };
  return (Math.abs(Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)) * 180) / Math.PI;
}

// Each end of a line is found within two pixels of the original.
const endWithin = 2;
const part = (from, to, pixels) => (endWithin * Math.SQRT2) / (distance(from, to) * pixels);

function angleUncertainty(points, pixels) {
  return (Math.hypot(part(points[0], points[1], pixels), part(points[2], points[3], pixels)) * 180) / Math.PI;
}
function lengthUncertainty(value, points, scalePoints, pixels) {
  return value * Math.hypot(part(points[0], points[1], pixels), part(scalePoints[0], scalePoints[1], pixels));
}

// "8 mm", "5/16 in", "1 1/4 in", "1.2 m" in millimetres; nothing for what is no length.
const inMillimetres = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 };
function millimetres(text) {
  const found = /^\s*(?:(\d+)\s+)?(\d+(?:\.\d+)?)(?:\/(\d+))?\s*(mm|cm|m|in|ft)\s*$/.exec(text);
  if (!found || Number(found[3]) === 0 || (found[1] && !found[3])) return null;
  const number = Number(found[1] || 0) + Number(found[2]) / Number(found[3] || 1);
  return number > 0 ? number * inMillimetres[found[4]] : null;
}

const scaleLength = (scale) => millimetres(scale.length);
function measuredLength(points, scale) {
  const line = lineOf(scale.along);
  return (scaleLength(scale) * distance(points[0], points[1])) / distance(line[0], line[1]);
}
