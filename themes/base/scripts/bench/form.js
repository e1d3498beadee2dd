/* The form on the page: what is asked in it, and what it says of that. */

import { address, fromAddress, keep, kept } from "./address.js";
import { SYSTEMS } from "./amounts.js";
import { data } from "./contract.js";
import { ONE, read, same, times } from "./fraction.js";
import { put, write } from "./page.js";
import { batches, measures, number } from "./shown.js";
import { LINES, scale } from "./typed.js";

var form = document.querySelector("form.bench");
var page = form && {
  by: form.querySelector(".by"), is: form.querySelector(".is"), water: form.querySelector(".vessel"),
  units: Array.prototype.slice.call(form.querySelectorAll("[name=units]")), state: form.querySelector(".state"),
  hint: form.querySelector(".hint"), command: document.querySelector(".command"), again: form.querySelector(".again")
};

var HINTS = {
  serves: "a number of servings, such as 12",
  makes: "how much to make, such as ",
  batches: "how many times the written amounts, such as 2 or 1/2",
  meat: "the weight on your scale with its unit, such as 7.5 lb, 3 lb 6 oz or 3.4 kg"
};
function example(made) { return made && made.count ? "8" : made && made.volume ? "6 qt" : "6 lb"; }
function hint(by) {
  if (LINES[by]) { return "Write how much of it, such as " + example(LINES[by]) + "."; }
  return "Write " + HINTS[by] + (by === "makes" ? example(data.makes) : "") + ".";
}

function clean(asked) {
  var known = Array.prototype.some.call(page.by.options, function (one) { return one.value === asked.by; });
  return {
    by: known ? asked.by : page.by.options[0].value, is: known ? asked.is || "" : "",
    water: page.water ? asked.water || "" : "",
    units: SYSTEMS.indexOf(asked.units) >= 0 ? asked.units : data.units
  };
}
function fill(asked) {
  page.by.value = asked.by;
  page.is.value = asked.is;
  if (page.water) { page.water.value = asked.water; }
  page.units.forEach(function (one) { one.checked = one.value === asked.units; });
}
function typed() {
  var chosen = page.units.filter(function (one) { return one.checked; })[0];
  return {
    by: page.by.value, is: page.is.value.trim(), water: page.water ? page.water.value.trim() : "",
    units: chosen ? chosen.value : data.units
  };
}
function words(at, guards) {
  if (guards.length) { return "No weights: this cure is refused. The reason stands under Weigh."; }
  var said = same(at.b, ONE) ? "As written" : "Scaled to " + batches(at.b);
  if (data.serves) { said += ", serves " + number(times(read(data.serves), at.b), "fraction"); }
  return said + (at.own ? ", with your own water." : ".");
}
function option(name, text) {
  if (text && LINES[name]) { text = name.slice(2) + "=" + text; name = "line"; }
  return text && " --" + name + " \"" + text + "\"";
}
function isRead(input, asked) {
  var good = Boolean(scale(asked));
  if (input) { input.setAttribute("aria-invalid", String(!good)); }
  return good;
}
function apply(asked, isTyped) {
  put(page.hint, hint(asked.by));
  var isGood = isRead(page.is, { by: asked.by, is: asked.is });
  var isWet = isRead(page.water, { water: asked.water });
  if (!isGood) {
    put(page.state, "'" + asked.is + "' cannot be read. " + hint(asked.by) + " The page stays as it was.");
  } else if (!isWet) {
    put(page.state, "'" + asked.water + "' is no amount of water. Write it with its unit, such as 6 qt or 5 L. The page stays as it was.");
  } else {
    var at = scale(asked);
    put(page.state, words(at, write(at, asked.units)));
    put(page.command, option(asked.by, asked.is) + option("water", asked.water));
    document.documentElement.setAttribute("data-asked", address(asked));
    if (isTyped) { keep(asked); }
  }
}

function listen() {
  form.addEventListener("submit", function (event) { event.preventDefault(); apply(typed(), true); });
  form.addEventListener("input", function (event) {
    if (event.target === page.by) { page.is.value = ""; }
    apply(typed(), true);
  });
  page.again.addEventListener("click", function () {
    fill(clean({ units: typed().units }));
    apply(typed(), true);
    page.is.focus();
  });
  window.addEventListener("hashchange", function () {
    var found = fromAddress(location.hash);
    if (found) { fill(clean(found)); apply(typed(), true); }
  });
}

/* Without the data or the rounding table the form stays hidden, and the page as it was written. */
if (form && data && measures) {
  listen();
  form.hidden = false;
  fill(clean(kept()));
  apply(typed(), false);
}
