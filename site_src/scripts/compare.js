/* Fluids side by side: reads the choice from the address, keeps it there, and joins ready-made
   cells and columns. Every figure and every drawing comes from the data scripts of this folder;
   here they are only chosen, put in order and cut to one height. */
(function () {
  "use strict";

  const shared = (window.isofolio = window.isofolio || {});
  const root = document.documentElement.dataset.root || "";
  // The folder of this script: a published copy names it anew each time, with its own data beside it.
  const here = document.currentScript.src.replace(/[^/]*$/, "");
  const part = (name) => document.getElementById("compare" + name);
  const box = part("");
  if (!box) return;

  const SVG = "http://www.w3.org/2000/svg";
  const KEY = "with";
  const PLASMA = "plasma";
  const FEWEST = Number(box.dataset.fewest);
  const MOST = Number(box.dataset.most);
  const UNREADABLE = "The figures of this copy could not be read (folder scripts). The comparisons below need none.";
  const adder = part("-add");
  const names = new Map(Array.from(adder.options, (option) => [option.value, option.textContent]));
  names.delete("");

  let chosen = [];
  let beside = true;
  let turn = 0; // of the newest choice: a slower, older one is not shown over it

  function element(tag, className, text) {
    const made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  const say = (text) => {
    part("-status").textContent = text;
  };
  const listed = (words) => (words.length < 2 ? words.join("") : words.slice(0, -1).join(", ") + " and " + words[words.length - 1]);
  /* "{} to {}" with the blanks filled in their order. */
  const put = (pattern, ...words) => words.reduce((text, word) => text.replace("{}", () => word), pattern);

  /* ---- The choice and the address. ---- */

  function readAddress() {
    const query = new URLSearchParams(window.location.search).get(KEY);
    const asked = query === null ? new URLSearchParams(window.location.hash.slice(1)).get(KEY) : query;
    if (asked === null) return [];
    const ids = Array.from(new Set(asked.split(",").filter(Boolean)));
    beside = ids.includes(PLASMA);
    const fluids = ids.filter((id) => id !== PLASMA);
    chosen = fluids.filter((id) => names.has(id)).slice(0, MOST);
    return fluids.filter((id) => !names.has(id));
  }

  function writeAddress() {
    const ids = beside ? chosen.concat(PLASMA) : chosen;
    const wanted = chosen.length ? KEY + "=" + ids.join(",") : "";
    const page = window.location.pathname;
    try {
      window.history.replaceState(null, "", wanted ? page + "?" + wanted : page);
    } catch (error) {
      window.location.hash = wanted; // a browser that keeps the address of a file as it is
    }
  }

  function listChosen() {
    part("-chosen").replaceChildren(
      ...chosen.map((id) => {
        const item = element("li");
        const button = element("button", "plain-button", "Remove");
        button.type = "button";
        button.setAttribute("aria-label", "Remove " + names.get(id));
        button.addEventListener("click", () => remove(id));
        item.append(element("span", "", names.get(id)), " ", button);
        return item;
      })
    );
  }

  function add() {
    const id = adder.value;
    if (!id) say("Choose a fluid in the list first.");
    else if (chosen.includes(id)) say(names.get(id) + " is there already.");
    else if (chosen.length >= MOST) say("No more than " + MOST + " stand side by side. Remove one first.");
    else {
      chosen = chosen.concat(id);
      adder.value = "";
      update();
    }
    adder.focus();
  }

  function remove(id) {
    const place = chosen.indexOf(id);
    chosen = chosen.filter((other) => other !== id);
    update();
    const buttons = part("-chosen").querySelectorAll("button");
    (buttons[Math.min(place, buttons.length - 1)] || adder).focus();
  }

  function update(unknown) {
    writeAddress();
    listChosen();
    turn += 1;
    const mine = turn;
    const wanted = ["compare-data"].concat(chosen.map((id) => "compare/" + id));
    if (chosen.length < FEWEST) {
      part("-shown").hidden = true;
      say(missing(unknown));
      return;
    }
    Promise.all(wanted.map(load)).then(
      () => {
        if (mine === turn) show(unknown);
      },
      () => say(UNREADABLE)
    );
  }

  function missing(unknown) {
    const more = chosen.length ? "Choose one more." : "Choose " + FEWEST + " to " + MOST + " fluids.";
    return notHere(unknown) + more;
  }

  function notHere(unknown) {
    return unknown && unknown.length ? "Not in this catalogue: " + unknown.join(", ") + ". " : "";
  }

  /* ---- Reading the data. ---- */

  const loads = new Map();

  function load(name) {
    if (!loads.has(name)) {
      const read = new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = here + name + ".js";
        script.onload = resolve;
        script.onerror = () => {
          loads.delete(name);
          script.remove();
          reject(new Error(name));
        };
        document.head.append(script);
      });
      loads.set(name, read);
    }
    return loads.get(name);
  }

  /* ---- The table. ---- */

  /* In words what differs between the fluids of a row: the same few words as on the ready-made pages. */
  function difference(cells, fluids, words) {
    const texts = cells.map((cell) => cell[0]);
    if (new Set(texts).size === 1) return cells.length === FEWEST ? words.both : words.same;
    if (cells.some((cell) => cell[1] === null)) return words.unknown;
    const holding = fluids.filter((fluid, order) => texts[order] !== words.none);
    if (holding.length === 1) return put(words.only, holding[0].name);
    const ordered = cells.slice().sort((one, other) => one[1] - other[1]);
    return put(words.range, ordered[0][0], ordered[ordered.length - 1][0]);
  }

  function rowOf(name, cells, plasma, differs, told, className) {
    const made = element("tr", className + (differs ? " unlike" : ""));
    const head = element("th", "", name);
    head.scope = "row";
    made.append(head, ...cells);
    if (beside) made.append(element("td", "beside", plasma));
    made.append(element("td", "words", told));
    return made;
  }

  function headOf(fluids) {
    const made = element("tr");
    const heads = fluids.map((fluid) => {
      const link = element("a", "", fluid.name);
      link.href = root + fluid.at;
      const head = element("th");
      head.append(link);
      return head;
    });
    const first = element("th", "", "figure");
    const rest = beside ? [element("th", "", shared.compare.plasma.name)] : [];
    rest.push(element("th", "words", "difference"));
    for (const head of [first, ...heads, ...rest]) {
      head.scope = "col";
      made.append(head);
    }
    const top = element("thead");
    top.append(made);
    return top;
  }

  function groupOf(title, rows, columns) {
    const body = element("tbody");
    const head = element("th", "", title);
    head.scope = "rowgroup";
    head.colSpan = columns;
    const line = element("tr", "group");
    line.append(head);
    body.append(line, ...rows);
    return body;
  }

  function saidRows(fluids) {
    const { said, words, notCompared } = shared.compare;
    return said.map((question, place) => {
      const texts = fluids.map((fluid) => fluid.said[place]);
      const differs = new Set(texts).size > 1;
      const same = fluids.length === FEWEST ? words.both : words.same;
      const cells = texts.map((text) => element("td", "", text));
      return rowOf(question, cells, notCompared, differs, differs ? words.differs : same, "said");
    });
  }

  function table(fluids) {
    const { rows, words } = shared.compare;
    const made = element("table", "plain compared");
    made.append(element("caption", "visually-hidden", "Figures side by side"), headOf(fluids));
    const columns = fluids.length + (beside ? 1 : 0) + FEWEST;
    const groups = new Map();
    const absent = [];
    rows.forEach((row, place) => {
      const cells = fluids.map((fluid) => fluid.cells[place]);
      if (cells.every((cell) => cell[0] === words.none)) {
        absent.push(row.name.split(",")[0]);
        return;
      }
      const shown = cells.map((cell) => element("td", cell[1] === null ? "reason" : "", cell[0]));
      const differs = new Set(cells.map((cell) => cell[0])).size > 1;
      const line = rowOf(row.name, shown, row.plasma, differs, difference(cells, fluids, words), "");
      groups.set(row.group, (groups.get(row.group) || []).concat(line));
    });
    made.append(groupOf("In words", saidRows(fluids), columns));
    groups.forEach((lines, title) => made.append(groupOf(title, lines, columns)));
    part("-table").replaceChildren(made);
    const held = Array.from(new Set(absent));
    part("-absent").textContent = held.length ? "None of them has any: " + listed(held) + "." : "";
  }

  /* ---- The columns. ---- */

  function columns(fluids) {
    const { ways, plasma } = shared.compare;
    const fits = (way) => fluids.every((fluid) => fluid.columns[way.by]);
    const way = ways.find(fits) || ways[ways.length - 1];
    const shown = fluids.map((fluid) => fluid.columns[way.by]).filter(Boolean);
    if (beside) shown.push(plasma.columns[ways[0].by]);
    part("-symbols").replaceChildren(...shown.map((column) => parsed(column.markup)));
    part("-row").replaceChildren(together(shown));
    part("-sentence").textContent = way.sentence;
  }

  function parsed(markup) {
    const text = '<svg xmlns="' + SVG + '">' + markup + "</svg>";
    const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
    return document.importNode(read.firstElementChild, true);
  }

  const set = (node, values) => {
    Object.keys(values).forEach((key) => node.setAttribute(key, values[key]));
    return node;
  };
  const drawn = (tag, values) => set(document.createElementNS(SVG, tag), values);

  /* One picture of ready-made columns, side by side: base lines level, the empty sky cut off. */
  function together(shown) {
    const top = Math.min(...shown.map((column) => column.top));
    const tall = Math.max(...shown.map((column) => column.height)) - top;
    const picture = drawn("svg", { height: tall, class: "ion-drawing ion-drawing-wide", role: "list" });
    let left = 0;
    for (const { id, label, width, height } of shown) {
      const one = drawn("g", { role: "listitem" });
      const image = drawn("g", { role: "img", "aria-label": label });
      image.append(drawn("use", { href: "#" + id, x: left, width, height }));
      one.append(image);
      picture.append(one);
      left += width;
    }
    return set(picture, { width: left, viewBox: [0, top, left, tall].join(" ") });
  }

  function show(unknown) {
    const fluids = chosen.map((id) => shared.compared[id]);
    columns(fluids);
    table(fluids);
    part("-shown").hidden = false;
    const all = fluids.map((fluid) => fluid.name).concat(beside ? PLASMA : []);
    say(notHere(unknown) + "Side by side: " + listed(all) + ".");
  }

  /* ---- Start. ---- */

  part("-put").addEventListener("click", add);
  part("-clear").addEventListener("click", () => {
    chosen = [];
    update();
    adder.focus();
  });
  part("-plasma").addEventListener("change", (event) => {
    beside = event.target.checked;
    update();
  });
  box.hidden = false;
  const unknown = readAddress();
  part("-plasma").checked = beside;
  update(unknown);
})();
