/* The finder's box and list: a combobox over links, by keyboard, mouse and screen reader.
   A classic script without a network. What it needs besides (the search and its index) is read by
   further scripts of this folder, in order, when the box is first focused. */
(function () {
  "use strict";

  const shared = (window.isofolio = window.isofolio || {});
  const box = document.getElementById("finder-box");
  const results = document.getElementById("finder-results");
  if (!box || !results) return;

  const NEEDED = ["spelling", "index", "pages", "questions", "search", "data"].map((part) => "finder-" + part);
  const ALL_FLUIDS = { at: "fluids.html", label: "All fluids" };
  const NOTHING = "Nothing found. Read the generic name on the label.";
  const SEVERAL = "More than one fluid may be meant.";
  const UNREADABLE = "The index of this copy could not be read (folder scripts). Look in All fluids.";
  const HARD = "\u00a0";
  const root = document.documentElement.dataset.root || "";
  // The folder of this script: a published copy names it anew each time, with its own data beside it.
  const here = document.currentScript.src.replace(/[^/]*$/, "");

  let engine = null; // the search, once everything is read
  let loading = false;
  let answer = null; // of the last search; null while the list is closed
  let selected = -1;

  function element(tag, className, text) {
    const made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  const status = element("p", "finder-status");
  status.setAttribute("role", "status");
  status.setAttribute("aria-live", "polite");
  results.after(status);
  const say = (text) => {
    status.textContent = text;
  };

  /* ---- Reading the search and the index. ---- */

  function load() {
    if (engine || loading) return;
    loading = true;
    let left = NEEDED.length;
    const scripts = NEEDED.map((name) => {
      const script = document.createElement("script");
      script.async = false; // in this order
      script.src = here + name + ".js";
      script.onload = () => {
        left -= 1;
        if (!left) ready();
      };
      script.onerror = () => unreadable(scripts);
      return script;
    });
    document.head.append(...scripts);
  }

  function ready() {
    loading = false;
    engine = shared.finderSearch(shared.finderData);
    shared.finder = engine;
    if (box.value.trim()) update();
  }

  function unreadable(scripts) {
    loading = false;
    for (const script of scripts) script.remove();
    show([note(UNREADABLE)], [allFluids()], []);
    say(UNREADABLE);
  }

  /* ---- The list. ---- */

  const note = (text) => element("p", "finder-note", text);

  /* Notes above and below; between them the links, in the list that the box controls. */
  function show(above, links, below) {
    const list = element("div", "finder-list");
    list.id = "finder-list";
    list.setAttribute("role", "listbox");
    list.setAttribute("aria-label", "Found");
    list.tabIndex = -1; // it scrolls, but the arrow keys of the box move it
    links.forEach((link, order) => {
      link.id = "finder-hit-" + order;
      link.tabIndex = -1;
      link.setAttribute("role", "option");
    });
    list.append(...links);
    results.replaceChildren(...above, list, ...below);
    setOpen(true, list.id);
  }

  function hide() {
    results.replaceChildren();
    setOpen(false, results.id);
    answer = null;
  }

  function setOpen(open, controlled) {
    results.classList.toggle("open", open);
    box.setAttribute("aria-expanded", String(open));
    box.setAttribute("aria-controls", controlled);
    select(-1);
  }

  function update() {
    if (!box.value.trim()) {
      hide();
      say("");
      return;
    }
    if (!engine) {
      load();
      return;
    }
    answer = engine.search(box.value);
    if (answer.hits.length) showHits();
    else {
      show([note(NOTHING)], [allFluids()], left());
      say(NOTHING + " All fluids is offered.");
    }
  }

  function showHits() {
    const { hits, ask } = answer;
    const { limits } = shared.finderData;
    const most = Math.max(limits.hits, ask ? ask.ids.length : 0);
    const links = hits.slice(0, most).map((hit) => (hit.section === undefined ? pageLink(hit) : sectionLink(hit)));
    const more = hits.length < limits.weighed ? hits.length - links.length + " more" : "Many more";
    if (hits.length > links.length) links.push(allFluids(more + " found: type another word, or look here."));
    show(ask ? [askNote(ask)] : [], links, left());
    say(summary());
  }

  function summary() {
    const { hits, ask } = answer;
    const found = hits.length + " found.";
    if (ask) return [several(ask), ask.apart, found].join(" ").trim();
    const [first] = hits;
    const near = first.loose || (first.missing || []).length > 0;
    return (near ? "Close matches only: " : "") + found + " Choose with the arrow keys.";
  }

  function askNote(ask) {
    const made = element("p", "finder-note finder-ask");
    if (several(ask)) made.append(element("b", "", SEVERAL), " ");
    made.append(ask.apart);
    return made;
  }

  const several = (ask) => (ask.ids.length > 1 ? SEVERAL : "");

  /* Fluids that do not tell what was asked are left out, and that is said. */
  function left() {
    const count = answer ? answer.silent : 0;
    if (!count) return [];
    const which = count === 1 ? " fluid does not declare it and is" : " fluids do not declare it and are";
    return [note(count + which + " left out. Unknown is not none.")];
  }

  /* ---- One hit. ---- */

  function hitLink(at, title, kind) {
    const link = element("a", "finder-hit");
    link.href = root + at;
    link.append(title);
    if (kind) link.append(" ", element("span", "finder-kind", kind));
    return link;
  }

  function line(link, className, text) {
    if (text) link.append(" ", element("span", className, text));
  }

  function allFluids(why) {
    const { at, label } = engine ? shared.finderData.all : ALL_FLUIDS;
    const link = hitLink(at, element("span", "finder-title", label), "");
    line(link, "finder-facts", why);
    return link;
  }

  function titleOf(pairs) {
    const title = element("span", "finder-title");
    pairs.forEach(([words, strength], order) => {
      title.append((order ? " " : "") + words);
      if (strength) title.append(HARD, element("b", "", strength));
    });
    return title;
  }

  function pageLink(hit) {
    const record = shared.finderData.records[hit.place];
    const link = hitLink(record.at, titleOf(record.title), record.kind);
    const told = [record.status, record.role, record.potassium, ...hit.why];
    line(link, "finder-facts", Array.from(new Set(told)).filter(Boolean).join(" · "));
    line(link, "finder-name", otherName(record, hit));
    line(link, "finder-flag", flags(hit));
    line(link, "finder-alike", alike(record));
    return link;
  }

  /* The name that was found, where it is not the title; slips of the finger are not shown. */
  function otherName(record, hit) {
    if (!hit.name) return "";
    const [name, kind] = record.names[hit.name - 1];
    return shared.finderData.nameKinds[kind] === "misspelling" ? "" : "also called " + name;
  }

  function flags(hit) {
    if (!hit.loose && !hit.missing.length) return "";
    return hit.missing.length ? "close match; not found: " + hit.missing.join(", ") : "close match";
  }

  function alike(record) {
    const { records, limits } = shared.finderData;
    const told = record.alike.slice(0, limits.alike).map(([place, differs]) => {
      const title = records[place].title.map((pair) => pair.filter(Boolean).join(HARD)).join(" ");
      return title + " (" + differs + ")";
    });
    return told.length ? "easily mistaken for " + told.join("; ") : "";
  }

  function sectionLink(hit) {
    const section = shared.finderData.prose[hit.section];
    const title = element("span", "finder-title", section.title + ": " + section.heading);
    const link = hitLink(section.at, title, "section");
    line(link, "finder-facts", section.text);
    return link;
  }

  /* ---- Keys, mouse, focus. ---- */

  const options = () => Array.from(results.querySelectorAll(".finder-hit"));

  function select(order) {
    selected = order;
    const links = options();
    links.forEach((link, at) => link.setAttribute("aria-selected", String(at === order)));
    if (links[order]) {
      box.setAttribute("aria-activedescendant", links[order].id);
      links[order].scrollIntoView({ block: "nearest" });
    } else box.removeAttribute("aria-activedescendant");
  }

  function move(step) {
    const count = options().length;
    const next = selected + step;
    if (!count) update();
    else if (next >= count) select(0);
    else select(next < -1 ? count - 1 : next);
  }

  /* Enter opens what the arrow keys chose, or the one page that is certainly meant. */
  function open() {
    const links = options();
    if (links[selected]) links[selected].click();
    else if (answer && answer.sure) links[0].click();
    else if (links.length) say("Nothing is opened: choose with the arrow keys. " + links.length + " in the list.");
  }

  

  function escape() {
    if (results.classList.contains("open")) hide();
    else box.value = "";
    say("");
  }

  const KEYS = { ArrowDown: () => move(1), ArrowUp: () => move(-1), Enter: open, Escape: escape };
  const isPlain = (event) => !event.isComposing && !event.altKey && !event.ctrlKey && !event.metaKey;
  const isOurs = (node) => node === box || (node instanceof Node && results.contains(node));
  const isField = (node) => Boolean(node) && (node.isContentEditable || /^(input|textarea|select)$/i.test(node.tagName));

  box.addEventListener("keydown", (event) => {
    const act = KEYS[event.key];
    if (!act || !isPlain(event)) return;
    event.preventDefault();
    act();
  });
  box.addEventListener("input", update);
  box.addEventListener("focus", () => {
    load();
    if (engine && !answer) update();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || !isPlain(event) || isField(document.activeElement)) return;
    event.preventDefault();
    box.focus();
    box.select();
  });
  for (const left of ["pointerdown", "focusin"])
    document.addEventListener(left, (event) => {
      if (!isOurs(event.target)) hide();
    });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) hide();
  });

  box.setAttribute("aria-autocomplete", "list");
  box.setAttribute("aria-haspopup", "listbox");
  if (document.activeElement === box) load();
})();
