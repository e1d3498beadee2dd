/* What a page weighs by, read out of #bench-data: expressions, sentences with numbers in them, guards. Nothing is decided here. */

import { NOUGHT, ONE, below, by, plus, read, step, times } from "./fraction.js";
import { base, places, rounded } from "./shown.js";

var block = document.getElementById("bench-data");
export var data = block && JSON.parse(block.textContent);

function formAt(c, at) {
  var values = [ONE, at.b, at.m, at.w];
  return c.reduce(function (sum, one, i) { return plus(sum, times(read(one), values[i])); }, NOUGHT);
}
var KINDS = {
  form: function (v, at) { return formAt(v.slice(1), at); },
  over: function (v, at) { return by(times(read(v[1]), value(v[2], at)), value(v[3], at)); },
  sum: function (v, at) {
    return v.slice(1).reduce(function (sum, one) {
      return plus(sum, times(read(one[0]), value(one[1], at)));
    }, NOUGHT);
  },
  least: function (v, at) {
    return v.slice(1).map(function (one) { return value(one, at); })
      .reduce(function (a, b) { return below(b, a) ? b : a; });
  },
  step: function (v, at) { return step(value(v[1], at), read(v[2]), v[3]); },
  round: function (v, at) { return rounded(value(v[1], at), v[2]); }
};
export function value(place, at) {
  if (!at.known[place]) { at.known[place] = KINDS[data.values[place][0]](data.values[place], at); }
  return at.known[place];
}
export function sentence(text, at, system) {
  return text.map(function (part) {
    if (typeof part === "string") { return part; }
    if (part[0] === "places") { return places(value(part[1], at), part[2]); }
    if (part[0] === "weight") {
      var grams = value(part[1], at), high = part.length > 4 ? value(part[4], at) : grams;
      return base(grams, high, part[2], part[3] === "*" ? system : part[3]);
    }
    return sentence(below(value(part[2], at), value(part[1], at)) ? part[3] : part[4], at, system);
  }).join("");
}
export function broken(guards, at) {
  var spoken = {}, found = [];
  guards.some(function (guard) {
    var breaks = !spoken[guard.group] && below(value(guard.limit, at), value(guard.value, at));
    if (breaks) { spoken[guard.group] = true; found.push(guard); }
    return breaks && guard.stops;
  });
  return found.sort(function (a, b) { return a.rank - b.rank; });
}
