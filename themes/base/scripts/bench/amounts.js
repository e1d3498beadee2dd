/* An amount of the page at a scale: in the system asked for, and in another behind it. */

import { data, sentence, value } from "./contract.js";
import { ONE, below, read, same, times } from "./fraction.js";
import { base, count, number } from "./shown.js";

export var SYSTEMS = ["us", "metric", "imperial"];


function items(list, factor, system) {
  return list.map(function (one) {
    if (one[0] === "base" && one[4] === system) { one = ["said"].concat(one.slice(5)); }
    if (one[0] === "base") { return base(times(read(one[1]), factor), times(read(one[2]), factor), one[3], system); }
    var show = one[0] === "count" ? count : function (end) { return number(end, "fraction"); };
    var high = times(read(one[2]), factor), text = show(times(read(one[1]), factor));
    if (show(high) !== text) { text += "–" + show(high); }
    var name = below(ONE, high) ? one[4] : one[3];
    return (text + " " + name).trim() + (one[5] ? " " + one[5] : "");
  }).join(" + ");
}
function noun(entry, factor) {
  if (!entry.noun) { return ""; }
  var few = entry.noun[2] !== null && !below(ONE, times(read(entry.noun[2]), factor));
  return few ? entry.noun[0] : entry.noun[1];
}
/* What stands in the brackets of a count: 6 (6 oz each, 2 lb 4 oz in all). */
function inside(entry, factor, system) {
  if (!entry.inside) { return ""; }
  var count = entry.of[0], all = entry.inside.of, each = entry.inside.each;
  var one = entry.of.length === 1 && same(times(read(count[1]), factor), ONE) && same(times(read(count[2]), factor), ONE);
  var parts = each ? [each[SYSTEMS.indexOf(system)] + (one ? "" : " each")] : [];
  if (all && !(one && each)) {
    parts.push(items(all, factor, system) + (entry.inside.all && !one ? " in all" : ""));
  }
  return parts.length ? " (" + parts.join(", ") + ")" : "";
}
function string(entry, factor, at, system) {
  if (entry.text) { return sentence(entry.text, at, system); }
  if (entry.grams && system === "metric") {
    return base(times(read(entry.grams[0]), factor), times(read(entry.grams[1]), factor), "ingredient weight", system);
  }
  var text = ((entry.about ? "about " : "") + items(entry.of, factor, system) + " " + noun(entry, factor)).trim();
  return text + inside(entry, factor, system);
}
function other(system) { return system === "metric" ? "us" : "metric"; }
function pair(first, second) {
  var count = first.split(" (")[0] + " (";
  if (first !== second && first.indexOf(count) === 0 && second.indexOf(count) === 0) {
    second = second.slice(count.length, -1);
  }
  return [first, first === second ? "" : second];
}
export function isAsWritten(name, at) { return same(at.b, ONE) && !(name === "i-water" && at.own); }
export function amount(name, share, at, system) {
  var entry = data.amounts[name];
  if (!entry) { return null; }
  var factor = entry.fixed ? ONE : at.b;
  if (share) { return shared(entry, times(factor, read(share)), read(share), at, system); }
  if (entry.one && (!(entry.of || entry.text) || entry.fixed || isAsWritten(name, at))) {
    return entry.one[SYSTEMS.indexOf(system)];
  }
  var found = pair(string(entry, factor, at, system), string(entry, factor, at, other(system)));
  if (entry.behind && !found[1]) {
    var behind = pair(items(entry.behind, factor, system), items(entry.behind, factor, other(system)));
    found[1] = behind.filter(Boolean).join(" / ");
  }
  return found;
}
function shared(entry, factor, share, at, system) {
  if (entry.share) {
    var grams = times(value(entry.share[0], at), share), use = entry.share[1];
    var high = entry.share.length > 3 ? times(value(entry.share[3], at), share) : grams;
    if (entry.share[2] !== "*") { return [base(grams, high, use, "metric"), ""]; }
    return pair(base(grams, grams, use, system), base(grams, grams, use, other(system)));
  }
  var plain = { of: entry.of, about: entry.about };
  return pair(string(plain, factor, at, system), string(plain, factor, at, other(system)));
}
