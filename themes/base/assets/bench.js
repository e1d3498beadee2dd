/* A page weighed again. What is compared, worked out and said stands in #bench-data, the rounding in measures.js;
   nothing is decided here. Numbers are exact fractions of whole numbers of any size. */
(function () {
  "use strict";
  var block = document.getElementById("bench-data");
  var form = document.querySelector("form.bench");
  var measures = window.POTHERB_MEASURES;
  if (!block || !form || !measures) { return; }
  var data = JSON.parse(block.textContent);
  var SYSTEMS = ["us", "metric", "imperial"];

  function fraction(n, d) {
    if (d < 0n) { n = -n; d = -d; }
    var a = n < 0n ? -n : n, b = d, rest;
    while (b) { rest = a % b; a = b; b = rest; }
    return a > 1n ? { n: n / a, d: d / a } : { n: n, d: d };
  }
  function read(text) {
    var parts = text.split("/");
    return fraction(BigInt(parts[0]), parts.length > 1 ? BigInt(parts[1]) : 1n);
  }
  function plus(a, b) { return fraction(a.n * b.d + b.n * a.d, a.d * b.d); }
  function times(a, b) { return fraction(a.n * b.n, a.d * b.d); }
  function by(a, b) { return fraction(a.n * b.d, a.d * b.n); }
  function less(a, b) { return plus(a, { n: -b.n, d: b.d }); }
  function below(a, b) { return a.n * b.d < b.n * a.d; }
  function same(a, b) { return a.n === b.n && a.d === b.d; }
  function floor(a) {
    var whole = a.n / a.d;
    return a.n < 0n && whole * a.d !== a.n ? whole - 1n : whole;
  }
  function whole(n) { return { n: n, d: 1n }; }
  function key(a) { return a.d === 1n ? String(a.n) : a.n + "/" + a.d; }
  var TRACES = ["pinch", "trace"];
  var NOUGHT = whole(0n), ONE = whole(1n), HALF = fraction(1n, 2n);

  function step(value, size, direction) {
    var parts = by(value, size), n;
    if (direction === "down") { n = floor(parts); }
    else if (direction === "up") { n = -floor({ n: -parts.n, d: parts.d }); }
    else { n = floor(plus(parts, HALF)); }
    return times(whole(n), size);
  }

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
  function rounded(value, use) {
    var row = rowFor(use, "metric", value), last = unit(row[2][row[2].length - 1]);
    return times(byRow(row, by(value, last.factor)), last.factor);
  }

  function places(value, count) {
    var sign = value.n < 0n ? "-" : "", ten = 10n ** BigInt(count);
    var size = { n: value.n < 0n ? -value.n : value.n, d: value.d };
    var digits = String(floor(plus(times(size, whole(ten)), HALF)));
    if (count) {
      digits = digits.padStart(count + 1, "0");
      digits = (digits.slice(0, -count) + "." + digits.slice(-count)).replace(/0+$/, "").replace(/\.$/, "");
    }
    return (digits === "0" ? "" : sign) + digits;
  }
  function number(value, style) {
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
  function base(low, high, use, system) {
    var a = parts(low, use, system);
    if (same(low, high)) { return joined(a); }
    var b = parts(high, use, system);
    if (joined(a) === joined(b)) { return joined(a); }
    if (isPlain(a) && isPlain(b) && a[0][1].more === b[0][1].more) {
      return number(a[0][0], a[0][2]) + "–" + number(b[0][0], b[0][2]) + " " + word(b[0][1], b[0][0]);
    }
    return joined(a) + " – " + joined(b);
  }
  function count(value) {
    var part = less(value, whole(floor(value)));
    if (measures.glyphs[key(part)] && below(value, whole(10n))) { return number(value, "fraction"); }
    var row = rowFor("count", "us", value);
    if (TRACES.indexOf(row[5]) >= 0) { return sized(trace(row, value, unit("count"))); }
    return number(byRow(row, value), "fraction");
  }

  /* Expressions and sentences of the page. */

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
  function value(place, at) {
    if (!at.known[place]) { at.known[place] = KINDS[data.values[place][0]](data.values[place], at); }
    return at.known[place];
  }
  function sentence(text, at, system) {
    return text.map(function (part) {
      if (typeof part === "string") { return part; }
      if (part[0] === "places") { return places(value(part[1], at), part[2]); }
      if (part[0] === "weight") {
        var grams = value(part[1], at);
        return base(grams, grams, part[2], part[3] === "*" ? system : part[3]);
      }
      return sentence(below(value(part[2], at), value(part[1], at)) ? part[3] : part[4], at, system);
    }).join("");
  }
  function broken(guards, at) {
    var spoken = {}, found = [];
    guards.some(function (guard) {
      var breaks = !spoken[guard.group] && below(value(guard.limit, at), value(guard.value, at));
      if (breaks) { spoken[guard.group] = true; found.push(guard); }
      return breaks && guard.stops;
    });
    return found.sort(function (a, b) { return a.rank - b.rank; });
  }

  function items(list, factor, system) {
    return list.map(function (one) {
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
  function string(entry, factor, at, system) {
    if (entry.text) { return sentence(entry.text, at, system); }
    if (entry.grams && system === "metric") {
      return base(times(read(entry.grams[0]), factor), times(read(entry.grams[1]), factor), "ingredient weight", system);
    }
    return ((entry.about ? "about " : "") + items(entry.of, factor, system) + " " + noun(entry, factor)).trim();
  }
  function other(system) { return system === "metric" ? "us" : "metric"; }
  function pair(first, second) { return [first, first === second ? "" : second]; }
  function isAsWritten(name, at) { return same(at.b, ONE) && !(name === "i-water" && at.own); }
  function amount(name, share, at, system) {
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
      if (entry.share[2] !== "*") { return [base(grams, grams, use, "metric"), ""]; }
      return pair(base(grams, grams, use, system), base(grams, grams, use, other(system)));
    }
    var plain = { of: entry.of, about: entry.about };
    return pair(string(plain, factor, at, system), string(plain, factor, at, other(system)));
  }
  function batches(b) {
    if (same(b, ONE)) { return "one batch"; }
    var part = less(b, whole(floor(b)));
    if (part.n && !measures.glyphs[key(part)]) { b = step(b, fraction(1n, below(b, fraction(1n, 10n)) ? 1000n : 100n), "up"); }
    return number(b, "fraction") + (below(b, ONE) ? " of one batch" : " batches");
  }

  /* What a reader types. */

  var VULGAR = {};
  Object.keys(measures.glyphs).forEach(function (part) { VULGAR[measures.glyphs[part]] = part; });
  function typedNumber(text) {
    text = text.trim().replace(/[⁄∕]/g, "/").replace(/\s*\/\s*/g, "/");
    var last = VULGAR[text.slice(-1)];
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

  var ASK = {
    serves: function (text) { var n = positive(typedNumber(text)); return n && by(n, read(data.serves)); },
    batches: function (text) { return positive(typedNumber(text)); },
    meat: function (text) { var w = typedAmount(text, ["weight"]); return w && by(w.value, read(data.meat)); },
    makes: function (text) {
      var made = data.makes, n = made.count && positive(typedNumber(text));
      if (n) { return by(n, read(made.count)); }
      var w = typedAmount(text, ["weight", "volume"]);
      return w && made[w.kind] ? by(w.value, read(made[w.kind])) : null;
    }
  };
  var LEAST = fraction(1n, 1000n), MOST = whole(1000n);
  function scale(asked) {
    var b = asked.by && asked.is ? ASK[asked.by](asked.is) : ONE;
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

  var page = {
    by: form.querySelector(".by"), is: form.querySelector(".is"), water: form.querySelector(".vessel"),
    units: Array.prototype.slice.call(form.querySelectorAll("[name=units]")), state: form.querySelector(".state"),
    hint: form.querySelector(".hint"), command: document.querySelector(".command"), again: form.querySelector(".again")
  };
  function all(selector) { return Array.prototype.slice.call(document.querySelectorAll(selector)); }
  function put(element, text) { if (element && element.textContent !== text) { element.textContent = text; } }
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
  function write(at, system) {
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

  /* What was chosen, in the address and remembered. */

  var ASKS = /^#(by|water|units)=/;
  var book = new URL("..", document.querySelector("script[src$='bench.js']").src).href;
  var HERE = "potherb " + location.pathname + " scale", UNITS = "potherb " + book + " units";
  function remembered(name) { try { return localStorage.getItem(name); } catch (error) { return null; } }
  function remember(name, text) {
    try {
      if (text) { localStorage.setItem(name, text); } else { localStorage.removeItem(name); }
    } catch (error) { /* A browser that keeps nothing. */ }
  }
  function fromAddress(hash) {
    if (!ASKS.test(hash)) { return null; }
    var found = new URLSearchParams(hash.slice(1));
    return { by: found.get("by"), is: found.get("is"), water: found.get("water"), units: found.get("units") };
  }
  function address(asked) {
    var found = new URLSearchParams();
    if (asked.by && asked.is) { found.set("by", asked.by); found.set("is", asked.is); }
    if (asked.water) { found.set("water", asked.water); }
    if (asked.units && asked.units !== data.units) { found.set("units", asked.units); }
    return found.toString();
  }
  function keep(asked) {
    var text = address(asked);
    if (text || ASKS.test(location.hash)) {
      history.replaceState(null, "", text ? "#" + text : location.pathname + location.search);
    }
    remember(HERE, address({ by: asked.by, is: asked.is, water: asked.water }));
    remember(UNITS, asked.units === data.units ? "" : asked.units);
  }

  var HINTS = {
    serves: "a number of servings, such as 12",
    makes: "how much to make, such as " + (data.makes && data.makes.count ? "8" : data.makes && data.makes.volume ? "6 qt" : "6 lb"),
    batches: "how many times the written amounts, such as 2 or 1/2",
    meat: "the weight on your scale with its unit, such as 7.5 lb, 3 lb 6 oz or 3.4 kg"
  };
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
  function option(name, text) { return text && " --" + name + " \"" + text + "\""; }
  function isRead(input, asked) {
    var good = Boolean(scale(asked));
    if (input) { input.setAttribute("aria-invalid", String(!good)); }
    return good;
  }
  function apply(asked, isTyped) {
    put(page.hint, "Write " + HINTS[asked.by] + ".");
    var isGood = isRead(page.is, { by: asked.by, is: asked.is });
    var isWet = isRead(page.water, { water: asked.water });
    if (!isGood) {
      put(page.state, "'" + asked.is + "' cannot be read. Write " + HINTS[asked.by] + ". The page stays as it was.");
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

  form.hidden = false;
  var start = fromAddress(location.hash) || fromAddress("#" + (remembered(HERE) || "")) || {};
  start.units = start.units || remembered(UNITS);
  fill(clean(start));
  apply(typed(), false);
}());
