/* What was chosen in the form, in the address and in the browser's storage. */

import { data } from "./contract.js";

var ASKS = /^#(by|water|units)=/;
var book = new URL("..", document.querySelector("script[src$='bench.js']").src).href;
var HERE = "potherb " + location.pathname + " scale", UNITS = "potherb " + book + " units";

function remembered(name) { try { return localStorage.getItem(name); } catch (error) { return null; } }
function remember(name, text) {
  try {
    if (text) { localStorage.setItem(name, text); } else { localStorage.removeItem(name); }
  } catch (error) { /* A browser that keeps nothing. */ }
}
export function fromAddress(hash) {
  if (!ASKS.test(hash)) { return null; }
  var found = new URLSearchParams(hash.slice(1));
  return { by: found.get("by"), is: found.get("is"), water: found.get("water"), units: found.get("units") };
}
export function address(asked) {
  var found = new URLSearchParams();
  if (asked.by && asked.is) { found.set("by", asked.by); found.set("is", asked.is); }
  if (asked.water) { found.set("water", asked.water); }
  if (asked.units && asked.units !== data.units) { found.set("units", asked.units); }
  return found.toString();
}
export function kept() {
  var found = fromAddress(location.hash) || fromAddress("#" + (remembered(HERE) || "")) || {};
  found.units = found.units || remembered(UNITS);
  return found;
}
export function keep(asked) {
  var text = address(asked);
  if (text || ASKS.test(location.hash)) {
    history.replaceState(null, "", text ? "#" + text : location.pathname + location.search);
  }
  remember(HERE, address({ by: asked.by, is: asked.is, water: asked.water }));
  remember(UNITS, asked.units === data.units ? "" : asked.units);
}
