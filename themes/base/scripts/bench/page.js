/* A scale in, the page written again: amounts, weights, figures, refusals, and what follows them. */

import { amount, isAsWritten } from "./amounts.js";
import { broken, data, sentence } from "./contract.js";
import { ONE, below, key, read, same, times } from "./fraction.js";
import { base, batches, number } from "./shown.js";


function all(selector) { return Array.prototype.slice.call(document.querySelectorAll(selector)); }
export function put(element, text) { if (element && element.textContent !== text) { element.textContent = text; } }
function show(element, isShown) { if (element) { element.hidden = !isShown; } }
function part(className, text) {
  var span = document.createElement("span");
  span.className = (className + (text && text.length <= 16 ? " short" : "")).trim();
  span.textContent = text;
  return span;
}
function writeAmount(element, found) {
  var inProse = element.hasAttribute("data-said");
  element.textContent = found ? "" : "(no weight)";
  if (!found) { return; }
  if (inProse && !found[1] && !/[A-Za-z]/.test(found[0])) {
    if (found[0]) { element.textContent = "(" + found[0] + ")"; }
    return;
  }
  element.appendChild(inProse ? part("", found[0]) : document.createTextNode(found[0]));
  if (found[1]) {
    element.appendChild(document.createTextNode(" "));
    element.appendChild(part("other", "(" + found[1] + ")"));
  }
}

function writeRows(at, system, refused) {
  var ounces = system === "imperial" ? "imperial" : "us";
  all(".weigh tbody tr").forEach(function (row) {
    put(row.querySelector(".grams"), refused ? "–" : sentence(data.cure.shown[row.id], at, "metric"));
    var also = data.cure.ounces[row.id];
    if (!also) { return; }
    var one = also.one && isAsWritten(row.id, at);
    var words = one ? also.one[ounces === "us" ? 0 : 1] : sentence(also.text, at, ounces);
    put(row.querySelector(".also"), refused ? "–" : words);
  });
}
function writeFigures(at, system, refused) {
  all("[data-figure]").forEach(function (row) {
    var text = data.cure.figures[row.getAttribute("data-figure")];
    if (!text) { show(row, !refused && !(at.own && row.getAttribute("data-figure") === "Ice")); return; }
    var words = refused ? "" : sentence(text[0], at, system), note = row.querySelector(".note");
    put(row.querySelector(".value"), words);
    if (text[1].length) {
      note = note || row.querySelector("dd").appendChild(part("note", ""));
      put(note, sentence(text[1], at, system));
    }
    show(row, words !== "");
  });
}
function writeRefusal(guards, at, system) {
  var box = document.querySelector(".weigh .refused"), list = box.querySelector("ul");
  list.textContent = "";
  guards.forEach(function (guard) {
    var line = document.createElement("li"), hint = document.createElement("span");
    line.textContent = sentence(guard.says[0], at, system) + " ";
    hint.className = "note";
    hint.textContent = sentence(guard.says[1], at, system);
    line.appendChild(hint);
    list.appendChild(line);
  });
  show(box, guards.length > 0);
}
function writeWatch(at, system, refused) {
  var found = refused || !at.own ? [] : broken(data.cure.watch, at), box = document.querySelector(".weigh .watch");
  put(box, found.map(function (one) { return sentence(one.says[0], at, system); }).join(" "));
  show(box, found.length > 0);
}
function writeCure(at, system) {
  var guards = broken(data.cure.guards, at), refused = guards.length > 0;
  writeRows(at, system, refused);
  writeFigures(at, system, refused);
  all(".figures [data-stays]").forEach(function (row) { show(row, !refused); });
  writeRefusal(guards, at, system);
  writeWatch(at, system, refused);
  document.documentElement.classList.toggle("no-weights", refused);
  return guards;
}

function scaleWords(at) {
  var said = same(at.b, ONE) ? "as written" : batches(at.b);
  return said + (at.own ? ", with " + base(at.w, at.w, "cure base", "metric") + " of water in the vessel" : "");
}
var CURED = ["i-salt", "i-sugar", "i-curing-salt", "i-water"];
function taken(number, at) {
  var need = data.needs[Number(number)];
  return times(read(need.batches), need.fixed ? ONE : at.b);
}
export function write(at, system) {
  var guards = data.cure ? writeCure(at, system) : [];
  all("[data-amount]").forEach(function (element) {
    var name = element.getAttribute("data-amount"), share = element.getAttribute("data-share");
    var isEmpty = guards.length > 0 && CURED.indexOf(name) >= 0;
    writeAmount(element, isEmpty ? null : amount(name, share, at, system));
  });
  all("[data-serves]").forEach(function (element) {
    put(element, number(times(read(data.serves), at.b), "fraction"));
  });
  all("[data-batches]").forEach(function (element) {
    put(element, batches(taken(element.getAttribute("data-batches"), at)));
  });
  all("[data-need] a").forEach(function (link) {
    var n = taken(link.closest("[data-need]").getAttribute("data-need"), at);
    link.href = link.getAttribute("href").split("#")[0] + "#by=batches&is=" + encodeURIComponent(key(n));
  });
  var isScaled = !same(at.b, ONE);
  all("[data-check]").forEach(function (element) { show(element, below(read(data.beyond), at.b)); });
  all("[data-stays] .asof").forEach(function (element) { show(element, isScaled || at.own); });
  all("[data-scaled]").forEach(function (element) { show(element, isScaled || at.own); });
  all("[data-scale-words]").forEach(function (element) { put(element, scaleWords(at)); });
  all("[data-as-written]").forEach(function (element) { show(element, !isScaled && !at.own); });
  all("[data-scaled-only]").forEach(function (element) { show(element, isScaled || at.own); });
  if (guards.length) { all("[data-refusable]").forEach(function (element) { show(element, false); }); }
  else { all("section[data-refusable]").forEach(function (element) { show(element, true); }); }
  document.documentElement.setAttribute("data-scale", key(at.b) + (at.own ? " " + key(at.w) : ""));
  return guards;
}
