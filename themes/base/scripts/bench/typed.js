/* What a reader types in, the scale that it asks for out; null for what cannot be read. */

import { data } from "./contract.js";
import { NOUGHT, ONE, below, by, fraction, plus, read, times, whole } from "./fraction.js";
import { measures } from "./shown.js";

function vulgar(sign) {
  return Object.keys(measures.glyphs).find(function (part) { return measures.glyphs[part] === sign; });
}
function typedNumber(text) {
  text = text.trim().replace(/[⁄∕]/g, "/").replace(/\s*\/\s*/g, "/");
  var last = vulgar(text.slice(-1));
  if (last) { text = (text.slice(0, -1).trim() + " " + last).trim(); }
  var found = /^(?:(\d{1,9}) +)?(\d{1,9})\/(\d{1,9})$/.exec(text);
  if (found) {
    if (BigInt(found[3]) === 0n || (found[1] && BigInt(found[2]) >= BigInt(found[3]))) { return null; }
    return plus(read(found[1] || "0"), fraction(BigInt(found[2]), BigInt(found[3])));
  }
  found = /^(\d{0,9})(?:([.,])(\d{1,9}))?$/.exec(text);
  if (!found || (!found[1] && !found[3])) { return null; }
  var digits = found[3] || "";
  /* 1,000 and, where points part thousands, 1.000 could be a thousand or one: neither is guessed. */
  if (digits.length === 3 && (found[2] === "," || !data.pointed)) { return null; }
  return fraction(BigInt((found[1] || "0") + digits), 10n ** BigInt(digits.length));
}
function positive(value) { return value && value.n > 0n ? value : null; }
function typedAmount(text, kinds) {
  /* 7.5 lb, 3 lb 6 oz. A number without its unit is no amount. */
  var sum = NOUGHT, rest = text.trim(), kind = null, last = null;
  while (rest) {
    var found = /^([\d.,\/ ⁄¼½¾⅓⅔⅛⅜⅝⅞]+)([A-Za-z]+)\.?\s*\+?\s*/.exec(rest);
    var known = found && measures.typed[found[2].toLowerCase()], n = found && typedNumber(found[1]);
    if (!known || !n || kinds.indexOf(known[1]) < 0 || (kind && kind !== known[1])) { return null; }
    if (kind && !below(read(known[0]), last)) { return null; }
    kind = known[1];
    last = read(known[0]);
    sum = plus(sum, times(n, read(known[0])));
    rest = rest.slice(found[0].length);
  }
  return positive(sum) && { value: sum, kind: kind };
}

export var LINES = (data && data.lines) || {};
function ratio(typed, written) {
  var n = written.count && positive(typedNumber(typed));
  if (n) { return by(n, read(written.count)); }
  var w = typedAmount(typed, ["weight", "volume"]);
  return w && written[w.kind] ? by(w.value, read(written[w.kind])) : null;
}
var ASK = {
  serves: function (text) { var n = positive(typedNumber(text)); return n && by(n, read(data.serves)); },
  batches: function (text) { return positive(typedNumber(text)); },
  meat: function (text) { var w = typedAmount(text, ["weight"]); return w && by(w.value, read(data.meat)); },
  makes: function (text) { return ratio(text, data.makes); }
};
function ask(name, text) { return LINES[name] ? ratio(text, LINES[name]) : ASK[name](text); }
var LEAST = fraction(1n, 1000n), MOST = whole(1000n);
export function scale(asked) {
  var b = asked.by && asked.is ? ask(asked.by, asked.is) : ONE;
  if (!b || below(b, LEAST) || below(MOST, b)) { return null; }
  var at = { known: {}, b: b, m: data.meat ? times(read(data.meat), b) : NOUGHT, w: NOUGHT, own: false };
  if (data.water) { at.w = times(read(data.water.grams), b); }
  if (asked.water && data.water && !data.water.fixed) {
    var vessel = typedAmount(asked.water, ["weight", "volume"]);
    if (!vessel) { return null; }
    at.w = vessel.value;
    at.own = true;
  }
  return at;
}
