/* The worksheets: what a volume and a rate that the reader enters would deliver. Every figure,
   bound and sentence comes from worksheets-data.js; here are only the sums, in the order in which
   the reference (isofolio.teaching.worksheets) does them, and the reading and showing of them. */
(function () {
  "use strict";

  const shared = (window.isofolio = window.isofolio || {});
  const data = shared.worksheetsData;
  if (!data) return;
  const { words, rounding } = data;
  const known = (number) => number !== null && number !== undefined;

  /* ---- Figures as text: the rule of isofolio.wording.figures. ---- */

  /* Half away from zero on the written digits: no multiplication, so nothing is lost on the way. */
  function rounded(number, decimals) {
    const [mantissa, power] = String(Math.abs(number)).split("e");
    const [whole, part = ""] = mantissa.split(".");
    const place = whole.length + Number(power || 0);
    const zeros = Math.max(0, 1 - place);
    const keep = place + zeros + decimals;
    const digits = ("0".repeat(zeros) + whole + part).padEnd(keep + 1, "0");
    const up = digits.charAt(keep) >= "5" ? 1 : 0;
    const kept = (BigInt(digits.slice(0, keep)) + BigInt(up)).toString().padStart(decimals + 1, "0");
    const cut = kept.length - decimals;
    const text = decimals ? kept.slice(0, cut) + "." + kept.slice(cut) : kept;
    return number < 0 && Number(text) > 0 ? rounding.minus + text : text;
  }

  function amount(number) {
    if (Math.abs(number) >= rounding.fine_below || number === 0) return rounded(number, 0);
    if (Math.abs(number) < rounding.hundredths_below) return rounded(number, 2);
    return rounded(number, 1).replace(/\.0$/, "");
  }

  function textOf(id, number) {
    const kind = data.kinds[id];
    if (!known(number)) return words.not_known;
    if (kind.decimals === null) return number === 0 ? words.none : amount(number);
    const text = rounded(number, kind.decimals);
    return kind.signed && number > 0 && Number(text) > 0 ? "+" + text : text;
  }

  const withUnit = (id, number) => {
    const text = textOf(id, number);
    const bare = text === words.none || text === words.not_known;
    return bare ? text : text + rounding.hard + data.kinds[id].unit;
  };

  /* ---- The sums. Each takes plain values and gives pairs of result and number. ---- */

  const share = (perLitre, volume) => (known(perLitre) ? (perLitre * volume) / data.per_litre : null);
  const total = (amounts) =>
    amounts.reduce((sum, one) => (known(sum) && known(one) ? sum + one : null), 0);
  const of = (held, quantity) => (quantity in held ? held[quantity] : 0);

  function banded(bands, weight) {
    let below = 0;
    return bands.reduce((sum, [end, perKilogram], place) => {
      const last = place === bands.length - 1;
      const within = Math.max(0, (last ? weight : Math.min(weight, end)) - below);
      below = end;
      return sum + perKilogram * within;
    }, 0);
  }

  function published(need, weight) {
    const ends = { water: need.water.map((bands) => banded(bands, weight)) };
    Object.entries(need.per_kg).forEach(([ion, one]) => (ends[ion] = [one * weight, one * weight]));
    Object.entries(need.per_litre).forEach(([ion, one]) => {
      ends[ion] = ends.water.map((water) => one * (water / data.per_litre));
    });
    Object.assign(ends, need.fixed);
    if (need.hourly.length) {
      const day = banded(need.hourly, weight) * data.per_day_hours;
      ends.hourly = [day, day];
    }
    return ends;
  }

  const sums = {
    contents({ per_litre, volume }) {
      const held = data.held.filter((quantity) => quantity in per_litre);
      return held.map((quantity) => [quantity + ".held", share(per_litre[quantity], volume)]);
    },

    day({ parts, weight, need }) {
      const ends = published(data.needs[need], weight);
      const totals = [["water", total(parts.map(([, volume]) => volume))]].concat(
        data.of_a_day.map((quantity) => [
          quantity,
          total(parts.map(([held, volume]) => share(of(held, quantity), volume))),
        ])
      );
      const found = totals.flatMap(([quantity, sum]) => [
        [quantity + ".day", sum],
        [quantity + ".per_kg", known(sum) ? sum / weight : null],
        ...between(quantity, ends),
      ]);
      return found.concat(between("hourly", ends));
    },

    concentrate({ bag, bag_volume, addition, addition_volume }) {
      const litres = [bag_volume / data.per_litre, addition_volume / data.per_litre];
      const both = litres[0] + litres[1];
      const over = (quantity, volume) =>
        total([bag, addition].map((held, place) => {
          const one = of(held, quantity);
          return known(one) ? one * (litres[place] / volume) : null;
        }));
      const found = [["volume.mixed", bag_volume + addition_volume]];
      data.held.concat("osmolarity").forEach((quantity) => {
        if (!(quantity in bag) && !(quantity in addition)) return;
        const nominal = over(quantity, litres[0]);
        if (quantity !== "osmolarity") found.push([quantity + ".held", share(nominal, bag_volume)]);
        found.push([quantity + ".mixed", over(quantity, both)], [quantity + ".nominal", nominal]);
      });
      return found;
    },

    drops({ volume, hours, drops_per_ml, per_litre }) {
      const rate = volume / hours;
      const counted = (volume * drops_per_ml) / (hours * data.per_hour_minutes);
      const found = [["rate", rate], ["counted", counted], ["exact", counted]];
      if (!per_litre) return found;
      return found.concat(
        data.per_hour.map((quantity) => [quantity + ".per_hour", share(of(per_litre, quantity), rate)])
      );
    },

    glucose({ glucose_mass, rate, weight }) {
      const hourly = (glucose_mass * rate) / data.per_litre;
      return [
        ["glucose.per_minute", (glucose_mass * rate) / (weight * data.per_hour_minutes)],
        ["glucose.per_hour", hourly],
        ["glucose.per_day", (hourly * data.per_day_hours) / weight],
      ];
    },

    sodium({ sodium, potassium, serum_sodium, weight, water_per_kg, volume }) {
      const water = weight * water_per_kg;
      const litres = volume / data.per_litre;
      const by = (infused) => (infused * (sodium + potassium - serum_sodium)) / (water + infused);
      const change = by(litres);
      return [
        ["water", water],
        ["change", change],
        ["linear", litres * by(1)],
        ["after", serum_sodium + change],
      ];
    },
  };

  function between(quantity, ends) {
    if (!(quantity in ends)) return [];
    const [from, to] = ends[quantity];
    return [[quantity + ".from", from], [quantity + ".to", to]];
  }

  /* ---- From what was entered to what a sum takes, and what else its line of working names. ---- */

  const figuresOf = (id) => data.fluids[id].figures;
  const shown = (number) => (known(number) ? amount(number) : words.not_known);

  const taken = {
    contents: (read) => ({ per_litre: figuresOf(read.fluid), volume: read.volume }),
    day: (read) => ({
      need: read.need,
      weight: read.weight,
      parts: Object.keys(read)
        .filter((name) => name.startsWith("fluid-") && read[name])
        .map((name) => [figuresOf(read[name]), read[name.replace("fluid", "volume")]]),
    }),
    concentrate: (read) => ({
      bag: figuresOf(read.bag),
      bag_volume: read["bag-volume"],
      addition: figuresOf(read.addition),
      addition_volume: read["addition-volume"],
    }),
    drops: (read) => ({
      volume: read.volume,
      hours: read.hours,
      drops_per_ml: read.drops,
      per_litre: read.fluid ? figuresOf(read.fluid) : null,
    }),
    glucose: (read) => ({
      glucose_mass: figuresOf(read.fluid).glucose_mass,
      rate: read.rate,
      weight: read.weight,
    }),
    sodium: (read) => ({
      sodium: of(figuresOf(read.fluid), "sodium"),
      potassium: of(figuresOf(read.fluid), "potassium"),
      serum_sodium: read.serum,
      weight: read.weight,
      water_per_kg: data.body_water[read.body],
      volume: read.volume,
    }),
  };

  const told = {
    glucose: (values) => ({ per_litre: shown(values.glucose_mass) }),
    sodium: (values) => ({
      factor: String(values.water_per_kg),
      litres: String(values.volume / data.per_litre),
      fluid_sodium: shown(values.sodium),
      fluid_potassium: amount(values.potassium),
    }),
  };

  const filled = (pattern, names) =>
    pattern.replace(/\{([^}]+)\}/g, (whole, name) => (name in names ? names[name] : words.none));

  /* ---- What must be said beside the figures. ---- */

  function above(number, limit) {
    return known(number) && Number(rounded(number, limit.decimals).replace(rounding.minus, "-")) > limit.value;
  }

  function limitNotes(sheet, numbers) {
    return sheet.limits
      .filter(([id, name]) => data.limits[name] && above(numbers[id], data.limits[name]))
      .map(([id, name]) => {
        const limit = data.limits[name];
        const row = data.kinds[id].row;
        const figure = withUnit(id, numbers[id]);
        return filled(words.above, {
          row: row.charAt(0).toUpperCase() + row.slice(1),
          figure,
          limit: limit.shown,
          text: limit.text,
          source: limit.source,
        });
      });
  }

  function pairNotes(held) {
    const there = (quantity) => held.some((one) => quantity in one && one[quantity] !== 0);
    const met = data.pairs.filter(([first, second]) => there(first) && there(second));
    return met.length ? met.map(([, , text]) => filled(words.pair, { text })) : [words.no_clash];
  }

  function unknownNotes(read, ids) {
    const rows = new Set(ids.filter(([, number]) => !known(number)).map(([id]) => id.split(".")[0]));
    const chosen = Object.values(read).filter((value) => value in data.fluids);
    return Array.from(new Set(chosen)).flatMap((id) =>
      Object.entries(data.fluids[id].reasons)
        .filter(([quantity]) => rows.has(quantity))
        .map(([quantity, reason]) => {
          const kind = data.kinds[quantity + ".held"] || data.kinds[quantity + ".mixed"];
          return filled(words.unknown, { fluid: data.fluids[id].name, row: kind.row, reason });
        })
    );
  }

  function notesOf(name, read, values, found) {
    const numbers = Object.fromEntries(found);
    const notes = limitNotes(data.sheets[name], numbers).concat(unknownNotes(read, found));
    if (name === "contents" && data.fluids[read.fluid].role === "concentrate") notes.unshift(words.concentrate);
    return name === "concentrate" ? pairNotes([values.bag, values.addition]).concat(notes) : notes;
  }

  /* ---- Reading the form. ---- */

  const NUMBER = /^[0-9]+(\.[0-9]+)?$/;
  const COMMA = /^[0-9]+,[0-9]+$/;

  function judged(field, text) {
    if (text === "") return { value: null, fault: field.needed ? field.refusal : "" };
    if (field.kind !== "number") return { value: text, fault: "" };
    if (COMMA.test(text)) return { value: null, fault: words.comma };
    const value = NUMBER.test(text) ? Number(text) : NaN;
    const within = value >= field.low && value <= field.high;
    return { value: within ? value : null, fault: within ? "" : field.refusal };
  }

  function readForm(name, control) {
    const read = {};
    const faults = {};
    Object.entries(data.sheets[name].fields).forEach(([id, field]) => {
      const { value, fault } = judged(field, control(id).value.trim());
      read[id] = value;
      if (fault) faults[id] = fault;
    });
    if (name === "day") checkDay(read, faults, control);
    return { read, faults };
  }

  /* A fluid goes with its volume; a need with the weights it is offered for. */
  function checkDay(read, faults, control) {
    Object.entries(data.sheets.day.fields).forEach(([id, field]) => {
      if (!field.pair || field.pair === id || faults[id] || faults[field.pair]) return;
      const empty = [id, field.pair].filter((one) => control(one).value.trim() === "");
      if (empty.length === 1) faults[empty[0]] = words.half_pair;
    });
    const need = data.needs[read.need];
    if (!need || !known(read.weight) || faults.weight) return;
    if (read.weight < need.lowest || read.weight > need.highest) {
      faults.weight = filled(words.outside_need, { low: String(need.lowest), high: String(need.highest) });
    }
  }

  shared.worksheets = { sums, textOf, rounded, amount, judged, above };

  /* ---- The page. ---- */

  function element(tag, text, attributes) {
    const made = document.createElement(tag);
    if (text) made.textContent = text;
    Object.entries(attributes || {}).forEach(([name, value]) => made.setAttribute(name, value));
    return made;
  }

  /* Rows and columns in the order of the results; a single column has no head of its own. */
  function tableOf(found) {
    const kinds = found.map(([id, number]) => ({ ...data.kinds[id], text: withUnit(id, number) }));
    const rows = Array.from(new Set(kinds.map((kind) => kind.row)));
    const columns = Array.from(new Set(kinds.map((kind) => kind.column)));
    const head = element("tr");
    head.append(element("th", "result", { scope: "col" }));
    columns.forEach((column) => head.append(element("th", column || "figure", { scope: "col" })));
    const body = element("tbody");
    rows.forEach((row) => {
      const line = element("tr");
      line.append(element("th", row, { scope: "row" }));
      columns.forEach((column) => {
        const cell = kinds.find((kind) => kind.row === row && kind.column === column);
        line.append(element("td", cell ? cell.text : ""));
      });
      body.append(line);
    });
    const top = element("thead");
    top.append(head);
    return [top, body];
  }

  /* The sum in the reader's own numbers: once, or once for each row that holds something. */
  function workedLines(name, entered, values, found) {
    const sheet = data.sheets[name];
    const texts = Object.fromEntries(found.map(([id, number]) => [id, withUnit(id, number)]));
    const names = { ...entered, ...texts, ...(told[name] ? told[name](values) : {}) };
    if (!sheet.each) return [filled(sheet.worked, names)];
    return found
      .filter(([id, number]) => id.endsWith(".held") && number)
      .map(([id]) => {
        const quantity = id.split(".")[0];
        const part = (held, volume) => withUnit(id, share(of(held, quantity), volume));
        const more = name === "contents"
          ? { per_litre: withUnit(id, values.per_litre[quantity]) }
          : { in_bag: part(values.bag, values.bag_volume), in_addition: part(values.addition, values.addition_volume) };
        const own = { row: data.kinds[id].row, held: texts[id], mixed: texts[quantity + ".mixed"], nominal: texts[quantity + ".nominal"] };
        return filled(sheet.each, { ...names, ...own, ...more });
      });
  }

  function begin(section) {
    const name = section.id;
    const sheet = data.sheets[name];
    const control = (id) => document.getElementById(name + "-" + id);
    const part = (id) => document.getElementById(name + "-" + id);
    const form = part("form");
    const names = Object.keys(sheet.fields);
    let example = false;

    const say = (text) => {
      part("status").textContent = text;
    };
    const mark = (text) => {
      part("mark").textContent = text;
      part("mark").hidden = !text;
    };

    function blame(id, fault) {
      part(id + "-fault").textContent = fault || "";
      if (fault) control(id).setAttribute("aria-invalid", "true");
      else control(id).removeAttribute("aria-invalid");
    }

    function put(list, texts) {
      list.replaceChildren(...texts.map((text) => element("li", text)));
      list.hidden = texts.length === 0;
    }

    function forget(text) {
      if (part("result").hidden) return;
      part("result").hidden = true;
      say(text);
    }

    function work() {
      const { read, faults } = readForm(name, control);
      names.forEach((id) => blame(id, faults[id]));
      const wrong = names.filter((id) => faults[id]);
      if (wrong.length) {
        part("result").hidden = true;
        say(filled(words.refused, { count: String(wrong.length) }));
        control(wrong[0]).focus();
        return;
      }
      const values = taken[name](read);
      const found = sums[name](values);
      const entered = Object.fromEntries(names.map((id) => [id, control(id).value.trim()]));
      part("table").replaceChildren(part("table").caption, ...tableOf(found));
      put(part("worked"), workedLines(name, entered, values, found));
      put(part("notes"), notesOf(name, read, values, found));
      part("result").hidden = false;
      const [first, number] = found.find(([, one]) => known(one)) || found[0];
      say(filled(words.done, { first: data.kinds[first].row + " " + withUnit(first, number) }));
    }

    function showExample() {
      names.forEach((id) => {
        control(id).value = sheet.fields[id].example;
      });
      example = true;
      mark(words.example);
      work();
    }

    function empty() {
      names.forEach((id) => {
        control(id).value = "";
        blame(id, "");
      });
      example = false;
      mark("");
      part("result").hidden = true;
      say(words.cleared);
      control(names[0]).focus();
    }

    form.addEventListener("submit", (event) => {
      event.preventDefault();
      work();
    });
    form.addEventListener("input", () => {
      if (example) mark(words.changed);
      forget(words.stale);
    });
    part("example").addEventListener("click", showExample);
    part("empty").addEventListener("click", empty);
    part("print").addEventListener("click", () => {
      section.classList.add("printed-alone");
      section.parentNode.classList.add("printing-one");
      window.print();
    });
    form.hidden = false;
  }

  function printed() {
    document.querySelectorAll(".printed-alone").forEach((one) => one.classList.remove("printed-alone"));
    document.querySelectorAll(".printing-one").forEach((one) => one.classList.remove("printing-one"));
  }

  /* worksheets.html#contents=glucose-5: the sheet, with the fluid that the link came from in the
     first list that offers it. Nothing else is filled in. */
  function follow() {
    const [name, fluid] = window.location.hash.slice(1).split("=");
    const section = document.getElementById(name);
    if (!fluid || !section || !(name in data.sheets)) return;
    const lists = Array.from(section.querySelectorAll("select[data-fluids]"));
    const offers = (list) => Array.from(list.options).some((option) => option.value === fluid);
    const list = lists.find(offers);
    if (list) {
      list.value = fluid;
      list.dispatchEvent(new Event("input", { bubbles: true }));
    }
    section.scrollIntoView();
    (list || lists[0]).focus();
  }

  document.addEventListener("DOMContentLoaded", () => {
    document.querySelectorAll(".worksheet").forEach(begin);
    window.addEventListener("afterprint", printed);
    window.addEventListener("hashchange", follow);
  });
  // The browser goes to the anchor by itself first, and takes the focus away.
  window.addEventListener("load", follow);
})();
