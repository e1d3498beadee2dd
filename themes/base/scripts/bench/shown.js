/* A number in, how it is shown out: rounded by the table in measures.js, in the measures of a system. */

import { HALF, ONE, below, by, floor, fraction, key, less, plus, read, same, step, times, whole } from "./fraction.js";

export var measures = window.POTHERB_MEASURES;

var TRACES = ["pinch", "trace"];

function rowFor(use, system, value) {
  return measures.rows[use][system].find(function (row) {
    return !below(value, read(row[0])) && (row[1] === "" || below(value, read(row[1])));
  });
}
function unit(name) {
  var found = measures.units[name] || ["1", "", "", "count"];
  return { factor: read(found[0]), one: found[1], more: found[2], kind: found[3] };
}
function byRow(row, value) {
  var rounded = step(value, read(row[3]), row[4]);
  return rounded.n === 0n && value.n > 0n && row[4] !== "down" ? read(row[3]) : rounded;
}
export function rounded(value, use) {
  var row = rowFor(use, "metric", value), last = unit(row[2][row[2].length - 1]);
  return times(byRow(row, by(value, last.factor)), last.factor);
}

export function places(value, count) {
  var sign = value.n < 0n ? "-" : "", ten = 10n ** BigInt(count);
  var size = { n: value.n < 0n ? -value.n : value.n, d: value.d };
  var digits = String(floor(plus(times(size, whole(ten)), HALF)));
  if (count) {
    digits = digits.padStart(count + 1, "0");
    digits = (digits.slice(0, -count) + "." + digits.slice(-count)).replace(/0+$/, "").replace(/\.$/, "");
  }
  return (digits === "0" ? "" : sign) + digits;
}
export function number(value, style) {
  var n = floor(value), part = less(value, whole(n)), sign = measures.glyphs[key(part)];
  if (style === "fraction" && sign) { return (n ? String(n) : "") + sign; }
  if (part.n === 0n) { return String(n); }
  return places(value, below(value, whole(10n)) && below(whole(-10n), value) ? 3 : 2);
}
function word(one, value) { return below(ONE, value) ? one.more : one.one; }

function oneUnit(value, units, style) {
  if (style !== "fraction") { return null; }
  for (var i = 0; i < units.length - 1; i += 1) {
    var count = by(value, units[i].factor), part = less(count, whole(floor(count)));
    var owned = below(units[i].factor, read(measures.cup)) ? measures.spoons : measures.cups;
    if (units[i].kind === "volume" && count.n > 0n && owned.indexOf(key(part)) >= 0) { return [count, units[i]]; }
  }
  return null;
}
function ownMeasure(value, units, style) {
  var cups = units.filter(function (one) { return !below(one.factor, read(measures.cup)); });
  if (!cups.length || !below(value, times(read(measures.mostCups), cups[cups.length - 1].factor))) { return null; }
  return oneUnit(value, cups.concat([units[units.length - 1]]), style);
}
function trace(row, value, last) {
  var least = byRow(row, value);
  if (!least.n && value.n) { return [read(row[3]), last, row[5], true]; }
  return [least, last, least.n ? row[5] : "decimal"];
}
function parts(value, use, system) {
  var row = rowFor(use, system, value), units = row[2].map(unit), style = row[5];
  var last = units[units.length - 1], found = ownMeasure(value, units, style);
  if (TRACES.indexOf(style) >= 0) { return [trace(row, by(value, last.factor), last)]; }
  if (found) { return [[found[0], found[1], style]]; }
  var rest = times(byRow(row, by(value, last.factor)), last.factor);
  found = oneUnit(rest, units, style);
  if (found) { return [[found[0], found[1], style]]; }
  var all = [];
  units.slice(0, -1).forEach(function (one) {
    var n = whole(floor(by(rest, one.factor)));
    if (n.n) { all.push([n, one, style]); rest = less(rest, times(n, one.factor)); }
  });
  if (rest.n || !all.length) { all.push([by(rest, last.factor), last, style]); }
  return all;
}

function sized(one) {
  var under = one[3] ? "under " : "", spoon = read(measures.spoon);
  if (one[2] !== "pinch") { return under + number(one[0], one[2]); }
  return "a pinch, " + under + number(by(one[0], spoon), "fraction") + " of " + number(spoon, "fraction");
}
function isPlain(all) { return all.length === 1 && all[0][2] !== "pinch" && !all[0][3]; }
function joined(all) {
  return all.map(function (one) { return sized(one) + " " + word(one[1], one[0]); }).join(" ");
}
export function base(low, high, use, system) {
  var a = parts(low, use, system);
  if (same(low, high)) { return joined(a); }
  var b = parts(high, use, system);
  if (joined(a) === joined(b)) { return joined(a); }
  if (isPlain(a) && isPlain(b) && a[0][1].more === b[0][1].more) {
    return number(a[0][0], a[0][2]) + "–" + number(b[0][0], b[0][2]) + " " + word(b[0][1], b[0][0]);
  }
  return joined(a) + " – " + joined(b);
}
export function count(value) {
  var part = less(value, whole(floor(value)));
  if (measures.glyphs[key(part)] && below(value, whole(10n))) { return number(value, "fraction"); }
  var row = rowFor("count", "us", value);
  if (TRACES.indexOf(row[5]) >= 0) { return sized(trace(row, value, unit("count"))); }
  return number(byRow(row, value), "fraction");
}
export function batches(b) {
  if (same(b, ONE)) { return "one batch"; }
  var part = less(b, whole(floor(b)));
  if (part.n && !measures.glyphs[key(part)]) { b = step(b, fraction(1n, below(b, fraction(1n, 10n)) ? 1000n : 100n), "up"); }
  return number(b, "fraction") + (below(b, ONE) ? " of one batch" : " batches");
}
