/* Sorts and filters the table of all fluids, and keeps the choice in the address.
   A classic script without a global. It knows no quantity: each row carries its tokens, in the
   order that the table names, and its place by name is the one it has in the page. Long tables are
   read and laid out anew in short steps, so that the page answers meanwhile. */
(() => {
  "use strict";

  const table = document.getElementById("all-fluids");
  const form = document.getElementById("fluid-filters");
  if (!table || !form) return;

  const UNKNOWN = "?";
  const HELD = "+"; // it is there, in an amount that is not one figure
  const SORT = "sort"; // its name in the address; a minus before the column: descending
  const found = document.getElementById("fluids-found");
  const say = found.dataset;
  const scroller = table.parentElement;
  const heads = Array.from(table.tHead.rows[0].cells);
  const bodies = Array.from(table.tBodies);
  const size = bodies[0].rows.length;
  const names = table.dataset.tokens.split(" ");
  const kinds = table.dataset.words.split(" ");
  const selects = Array.from(form.querySelectorAll("select"));
  const FIRST = { key: heads[0].dataset.key, down: false };

  let sort = FIRST;
  let ignored = []; // parts of the address that this copy does not know
  let run = null; // the latest wish; an earlier one stops when it sees another here

  /* ---- What the rows say. ---- */

  /* The rest of a long table, which is text to a browser that runs scripts. */
  function* rest() {
    const holder = document.getElementById("fluids-rest");
    if (!holder) return;
    const [, ...parts] = holder.textContent.split("<tbody>");
    const template = document.createElement("template");
    for (const part of parts) {
      template.innerHTML = "<tbody>" + part.split("</tbody>")[0] + "</tbody>";
      const body = template.content.firstElementChild;
      table.append(body);
      bodies.push(body);
      yield;
    }
    holder.remove();
    document.getElementById("fluids-missing").remove();
  }

  const records = []; // of all rows, by name
  const reading = (function* () {
    yield* rest();
    for (const body of bodies) {
      for (const row of body.rows) {
        const { tokens, words } = row.dataset;
        records.push({ row, order: records.length, tokens: tokens.split(" "), words: words.split(" ") });
      }
      yield;
    }
  })();

  const holds = {
    holds: (token) => token === HELD || Number(token) > 0,
    free: (token) => Number(token) === 0,
    unknown: (token) => token === UNKNOWN,
  };

  /* Whether a record has what a list asks for; null where that is not known. */
  function answers({ name, value, dataset }, record) {
    if (dataset.kind === "word") return record.words[kinds.indexOf(name)] === value;
    const token = record.tokens[names.indexOf(name)];
    return holds[value](token) || (token === UNKNOWN ? null : false);
  }

  /* The records that fit, and how many are left out only because something is not known. */
  function fitting() {
    const asked = selects.filter((select) => select.value);
    const list = [];
    let silent = 0;
    for (const record of records) {
      const said = asked.map((select) => answers(select, record));
      if (said.every(Boolean)) list.push(record);
      else if (!said.includes(false)) silent += 1;
    }
    return { list, silent };
  }

  /* By figure, what is not known last either way; then by name. */
  function sorted(list) {
    if (sort.key === FIRST.key) return sort.down ? list.reverse() : list;
    const place = names.indexOf(sort.key);
    const figures = new Map(list.map((record) => [record, Number(record.tokens[place])]));
    const sign = sort.down ? -1 : 1;
    return list.sort((one, other) => {
      const [left, right] = [figures.get(one), figures.get(other)];
      return isNaN(left) - isNaN(right) || sign * (left - right) || one.order - other.order;
    });
  }

  /* ---- Showing. ---- */

  function* shown() {
    yield* reading;
    const { list, silent } = fitting();
    announce(list.length, silent);
    sorted(list);
    let start = 0;
    for (const body of bodies) {
      yield;
      body.replaceChildren(...list.slice(start, start + size).map((record) => record.row));
      start += size;
    }
  }

  /* Work in short steps; a later wish ends it between two of them. */
  function begin(work) {
    const mine = (run = {});
    table.setAttribute("aria-busy", "true");
    const proceed = () => {
      if (mine !== run) return;
      const end = performance.now() + Number(table.dataset.step);
      while (performance.now() < end) {
        if (work.next().done) return table.removeAttribute("aria-busy");
      }
      window.setTimeout(proceed);
    };
    window.setTimeout(proceed);
  }

  function mark() {
    for (const head of heads) {
      head.removeAttribute("aria-sort");
      if (head.dataset.key === sort.key) head.setAttribute("aria-sort", sort.down ? "descending" : "ascending");
    }
    for (const select of selects) select.classList.toggle("chosen", Boolean(select.value));
  }

  function show() {
    mark();
    scroller.scrollTop = 0;
    begin(shown());
  }

  const label = (select) => select.labels[0].firstChild.textContent.trim();
  const isFirst = () => sort.key === FIRST.key && sort.down === FIRST.down;

  /* What is chosen, in words: it is heard, and it stands above a printed table. */
  function choice() {
    const asked = selects.filter((select) => select.value);
    const told = asked.map((select) => label(select) + ": " + select.selectedOptions[0].text);
    if (isFirst()) return told;
    const head = heads.find((one) => one.dataset.key === sort.key);
    return [...told, say.by + " " + head.textContent.trim() + ", " + (sort.down ? say.down : say.up)];
  }

  function announce(count, silent) {
    const told = choice().join("; ");
    const parts = [count + " " + say.of + (told ? " (" + told + ")" : "") + "."];
    if (!count) parts.push(say.nothing);
    if (silent) parts.push(silent + " " + (silent === 1 ? say.one : say.many));
    if (ignored.length) parts.push(say.ignored + " " + ignored.join(", ") + ".");
    found.textContent = parts.join(" ");
  }

  /* ---- The address. ---- */

  function remember() {
    const parts = new URLSearchParams();
    for (const { name, value } of selects) if (value) parts.set(name, value);
    if (!isFirst()) parts.set(SORT, (sort.down ? "-" : "") + sort.key);
    const state = parts.toString();
    ignored = [];
    history.replaceState(null, "", location.href.split("#")[0] + (state ? "#" + state : ""));
  }

  /* Takes the choice from the address. An anchor of the page is none and changes nothing. */
  function recall() {
    const mark = location.hash.slice(1);
    if (mark && !mark.includes("=")) return false;
    const parts = new URLSearchParams(mark);
    for (const select of selects) {
      select.value = parts.get(select.name) || "";
      if (select.selectedIndex < 0) select.value = "";
    }
    const wish = parts.get(SORT) || "";
    const key = wish.replace(/^-/, "");
    sort = heads.some((head) => head.dataset.key === key) ? { key, down: key !== wish } : FIRST;
    ignored = Array.from(parts).filter((part) => !isKnown(part)).map((part) => part.join("="));
    return true;
  }

  function isKnown([name, value]) {
    if (name === SORT) return value.replace(/^-/, "") === sort.key;
    return selects.some((select) => select.name === name && select.value === value);
  }

  /* ---- Buttons and lists. ---- */

  function turn({ key, first }) {
    const down = key === sort.key ? !sort.down : first === "down";
    sort = { key, down };
    remember();
    show();
  }

  for (const head of heads) {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    button.addEventListener("click", () => turn(head.dataset));
    head.append(button);
  }
  form.addEventListener("change", () => {
    remember();
    show();
  });
  form.addEventListener("reset", () => {
    window.setTimeout(() => {
      remember();
      show();
    });
  });
  window.addEventListener("hashchange", () => {
    if (recall()) show();
  });

  const details = form.querySelector("details");
  details.open = window.matchMedia(details.dataset.open).matches;
  form.hidden = false;
  recall();
  if (location.hash.includes("=")) show();
  else {
    mark();
    announce(table.dataset.count, 0);
    begin(reading);
  }
})();
