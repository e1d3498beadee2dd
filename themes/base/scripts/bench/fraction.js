/* Exact fractions of whole numbers of any size. */

export function fraction(n, d) {
  if (d < 0n) { n = -n; d = -d; }
  var a = n < 0n ? -n : n, b = d, rest;
  while (b) { rest = a % b; a = b; b = rest; }
  return a > 1n ? { n: n / a, d: d / a } : { n: n, d: d };
}
export function read(text) {
  var parts = text.split("/");
  return fraction(BigInt(parts[0]), parts.length > 1 ? BigInt(parts[1]) : 1n);
}
export function plus(a, b) { return fraction(a.n * b.d + b.n * a.d, a.d * b.d); }
export function times(a, b) { return fraction(a.n * b.n, a.d * b.d); }
export function by(a, b) { return fraction(a.n * b.d, a.d * b.n); }
export function less(a, b) { return plus(a, { n: -b.n, d: b.d }); }
export function below(a, b) { return a.n * b.d < b.n * a.d; }
export function same(a, b) { return a.n === b.n && a.d === b.d; }
export function floor(a) {
  var whole = a.n / a.d;
  return a.n < 0n && whole * a.d !== a.n ? whole - 1n : whole;
}
export function whole(n) { return { n: n, d: 1n }; }
export function key(a) { return a.d === 1n ? String(a.n) : a.n + "/" + a.d; }

export var NOUGHT = whole(0n), ONE = whole(1n), HALF = fraction(1n, 2n);

export function step(value, size, direction) {
  var parts = by(value, size), n;
  if (direction === "down") { n = floor(parts); }
  else if (direction === "up") { n = -floor({ n: -parts.n, d: parts.d }); }
  else { n = floor(plus(parts, HALF)); }
  return times(whole(n), size);
}
