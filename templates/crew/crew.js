/* The crew's page narrows itself to a department or a person, remembers ticks on this device, and says what comes
   next. It knows nothing of the plan: every word stands in the page already, and what it writes is text, never markup. */
(function () {
  "use strict";
  var NAMED = 2; /* how many things the sentence names before it counts the rest */
  var say = document.body.dataset;
  var show = document.getElementById("show"), sentence = document.getElementById("sentence");
  var above = document.getElementById("above"), aboveRow = document.getElementById("above-row");
  var all = document.getElementById("all"), clear = document.getElementById("clear");
  var boxes = list("input[data-key]"), setups = list(".setup"), leads = {}, sure = false;
  var known = {};
  boxes.forEach(function (box) { known[box.dataset.key] = true; });

  function list(what, within) { return Array.prototype.slice.call((within || document).querySelectorAll(what)); }
  function fill(words, values) { return words.replace(/\{(\w+)\}/g, function (_all, name) { return values[name]; }); }
  function seen(node) { return !node.closest("[hidden]"); }
  function apart(name) { return "\u2068" + name + "\u2069"; }

  /* What the device keeps; where it keeps nothing the page works all the same and says so. */
  var store = null;
  try {
    store = window.localStorage;
    store.setItem("hotset", "1");
    store.removeItem("hotset");
  } catch (_none) { store = null; }

  function recall() {
    var kept = null;
    try { kept = JSON.parse(store.getItem(say.memory)); } catch (_none) { kept = null; }
    return kept && Array.isArray(kept.ticks) ? kept : { ticks: [], show: "" };
  }

  function keep() {
    if (!store) { return; }
    var ticks = boxes.filter(function (box) { return box.checked; }).map(function (box) { return box.dataset.key; });
    try { store.setItem(say.memory, JSON.stringify({ ticks: ticks, show: show.value })); } catch (_full) { forget(); }
  }

  function forget() { document.getElementById("forgets").hidden = false; }

  function restore() {
    var kept = recall(), ticked = {};
    kept.ticks.forEach(function (key) { if (known[key]) { ticked[key] = true; } });
    boxes.forEach(function (box) { box.checked = ticked[box.dataset.key] === true; });
    show.value = kept.show || "";
    if (show.selectedIndex < 0) { show.value = ""; }
  }

  /* Leaves out what is not for the department or person chosen. */
  function narrow() {
    var token = show.value;
    list("[data-for]").forEach(function (node) {
      node.hidden = token !== "" && node.dataset.for.split(" ").indexOf(token) < 0;
    });
    list(".ready").forEach(function (node) {
      node.hidden = !list(".part", node).some(function (part) { return !part.hidden; });
    });
    list("[data-mine]").forEach(function (node) {
      node.querySelector(".you").hidden = token === "" || node.dataset.mine !== token;
    });
    tell();
  }

  /* What comes next: the first thing open from the last place on where something is ticked. */
  function blockOf(box) { return box.closest(".ready, .roll, .stretch"); }

  function nextBox(shown) {
    var last = -1, i;
    for (i = 0; i < shown.length; i += 1) { if (shown[i].checked) { last = i; } }
    var from = 0;
    if (last >= 0) {
      while (blockOf(shown[from]) !== blockOf(shown[last])) { from += 1; }
    }
    for (i = from; i < shown.length; i += 1) { if (!shown[i].checked) { return i; } }
    for (i = 0; i < from; i += 1) { if (!shown[i].checked) { return i; } }
    return -1;
  }

  function words(box, shown) {
    if (box.dataset.says) { return box.dataset.says; }
    var block = box.closest(".ready");
    var left = shown.filter(function (other) { return !other.checked && blockOf(other) === block; });
    var named = left.slice(0, NAMED).map(function (other) { return apart(other.dataset.name); });
    var listed = named[0];
    if (left.length > NAMED) { listed = fill(say.more, { names: named.join(", "), n: left.length - NAMED }); }
    if (left.length === NAMED) { listed = fill(say.two, { one: named[0], other: named[1] }); }
    return block.dataset.before + listed + block.dataset.after;
  }

  function tell() {
    var shown = boxes.filter(seen), at = nextBox(shown), before = 0;
    var chosen = show.options[show.selectedIndex];
    list(".comes").forEach(function (node) { node.classList.remove("comes"); });
    if (at < 0) {
      point(sentence, shown.length ? say.done : fill(say.none, { who: chosen.text }), null);
    } else {
      var untouched = !shown.some(function (box) { return box.checked; });
      point(sentence, untouched && chosen.dataset.says || words(shown[at], shown), shown[at]);
      shown[at].closest("li, h2").classList.add("comes");
      before = shown.slice(0, at).filter(function (box) { return !box.checked; });
      point(above, fill(say.above, { n: before.length }), before[0] || null);
    }
    aboveRow.hidden = !(before.length > 0);
    list(".setup, .all").forEach(count);
  }

  /* A link of the sentence leads to the box it speaks of. */
  function point(link, text, box) {
    if (link.textContent !== text) { link.textContent = text; }
    leads[link.id] = box;
  }

  function count(section) {
    var mine = list("input[data-key]", section).filter(seen);
    var done = mine.filter(function (box) { return box.checked; }).length;
    var place = section.querySelector(".count");
    if (place) {
      place.hidden = mine.length === 0;
      place.textContent = fill(say.count, { done: done, all: mine.length });
    }
    section.classList.toggle("done", mine.length > 0 && done === mine.length);
  }

  /* Setups open and close at their heading. */
  function fold(section, shut) {
    section.classList.toggle("shut", shut);
    section.querySelector("h2 button").setAttribute("aria-expanded", String(!shut));
    all.textContent = setups.some(function (one) { return !one.classList.contains("shut"); }) ? say.shut : say.open;
  }

  setups.forEach(function (section) {
    var head = section.querySelector("h2"), button = document.createElement("button");
    button.type = "button";
    button.setAttribute("aria-controls", section.id + "-body");
    while (head.firstChild) { button.appendChild(head.firstChild); }
    head.appendChild(button);
    button.addEventListener("click", function () { fold(section, !section.classList.contains("shut")); });
  });

  function go(event) {
    var box = leads[event.currentTarget.id];
    event.preventDefault();
    if (!box) { return; }
    var section = box.closest(".setup");
    if (section) { fold(section, false); }
    box.scrollIntoView({ block: "center" });
    box.focus({ preventScroll: true });
  }

  sentence.addEventListener("click", go);
  above.addEventListener("click", go);
  show.addEventListener("change", function () { narrow(); keep(); });
  boxes.forEach(function (box) { box.addEventListener("change", function () { keep(); tell(); }); });
  all.addEventListener("click", function () {
    var shut = all.textContent === say.shut;
    setups.forEach(function (section) { fold(section, shut); });
  });
  clear.dataset.words = clear.textContent;
  clear.addEventListener("click", function () {
    if (sure) {
      boxes.forEach(function (box) { box.checked = false; });
      keep();
      tell();
    }
    sure = !sure;
    clear.textContent = sure ? say.sure : clear.dataset.words;
  });
  clear.addEventListener("blur", function () { sure = false; clear.textContent = clear.dataset.words; });
  window.addEventListener("storage", function (event) {
    if (event.key === say.memory) { restore(); narrow(); }
  });

  document.getElementById("pick").hidden = false;
  document.getElementById("tools").hidden = false;
  if (store) { restore(); } else { forget(); }
  narrow();
  var asked = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
  var open = asked && asked.closest(".setup") || leads.sentence && leads.sentence.closest(".setup");
  setups.forEach(function (section) { fold(section, section !== open); });
}());
