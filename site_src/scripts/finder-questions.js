/* Questions about contents for the finder: "without potassium", "k 40", "20 mmol k in 500".
   Lists of words, figures and units come with the index; this file holds no figure of its own. */
(function () {
  "use strict";

  function asker(data, index) {
    const { questions, measures } = data;
    const set = Object.fromEntries(
      Object.entries(questions).map(([key, words]) => [
        key,
        Array.isArray(words) ? new Set(words) : new Map(Object.entries(words)),
      ]),
    );
    const litre = data.spelling.litre;
    const said = new Map();
    let longest = 1;
    measures.forEach((measure, place) => {
      for (const word of measure.words) {
        said.set(word, [...(said.get(word) || []), place]);
        longest = Math.max(longest, word.split(" ").length);
      }
    });
    const held = data.records.map(
      (record) => new Map(record.held.map(([key, figures, shown]) => [key, { figures, shown }])),
    );
    const particles = (places) => places.filter((place) => measures[place].kind === "particle");

    function measureAt(words, from, backwards) {
      for (let length = longest; length >= 1; length -= 1) {
        const start = backwards ? from - length + 1 : from;
        if (start < 0 || start + length > words.length) continue;
        const part = words.slice(start, start + length);
        if (part.some((word) => word.used)) continue;
        const places = said.get(part.map((word) => word.text).join(" "));
        if (places) return { places, start, end: start + length };
      }
      return null;
    }

    const beyondLinks = (words, from, step) => {
      let at = from;
      while (words[at] && set.links.has(words[at].text)) at += step;
      return at;
    };
    const use = (words, from, to) => words.slice(from, to).forEach((word) => (word.used = true));
    const isNumber = (word) => Boolean(word && word.number);

    /* "without potassium or calcium", "with lactate", "potassium free", "calcium containing" */
    function polarity(words, clauses) {
      for (let at = 0; at < words.length; at += 1) {
        const without = set.without.has(words[at].text);
        if (!without && !set.with.has(words[at].text)) continue;
        let from = at + 1;
        for (;;) {
          const found = measureAt(words, beyondLinks(words, from, 1));
          const places = found ? particles(found.places) : [];
          const counted = found && (isNumber(words[found.end]) || isNumber(words[found.start - 1]));
          if (!places.length || (counted && !without)) break;
          clauses.push({ test: without ? "lacks" : "holds", places, explicit: true });
          use(words, at, found.end);
          if (!words[found.end] || !set.and.has(words[found.end].text)) break;
          from = found.end + 1;
        }
      }
      for (let at = 0; at < words.length; at += 1) {
        const found = measureAt(words, at);
        const after = found && words[found.end] ? words[found.end].text : "";
        const free = set.free.has(after);
        if (!found || (!free && !set.holding.has(after))) continue;
        const places = particles(found.places);
        if (!places.length || isNumber(words[found.end + 1])) continue;
        clauses.push({ test: free ? "lacks" : "holds", places, explicit: true });
        use(words, found.start, found.end + 1);
      }
    }

    /* "k < 5", "sodium more than 150", "under 5 potassium" */
    function comparisons(words, clauses) {
      for (let at = 0; at < words.length; at += 1) {
        const sign = set.signs.get(words[at].text);
        const number = beyondLinks(words, at + 1, 1);
        if (!sign || words[at].used || !isNumber(words[number])) continue;
        const before = measureAt(words, beyondLinks(words, at - 1, -1), true);
        const found = before || measureAt(words, beyondLinks(words, number + 1, 1));
        if (!found) continue;
        const places = fitting(found.places, words[number].number.unit);
        if (!places.length) continue;
        clauses.push({ test: sign, places, typed: words[number].number, explicit: true });
        use(words, Math.min(found.start, at), Math.max(found.end, number + 1));
        if (words[number + 1] && words[number + 1].text === "/l") use(words, number + 1, number + 2);
      }
    }

    /* Which figures a unit can be of; a number without one means millimoles or the osmolarity. */
    function fitting(places, unit) {
      const kinds = { g: ["grams"], mosm: ["total"], "": ["particle", "millimoles", "total"] };
      const wanted = kinds[unit] || (unit === "mmol" || unit === "meq" ? ["particle", "millimoles"] : []);
      return places.filter(
        (place) =>
          wanted.includes(measures[place].kind) && (unit !== "meq" || measures[place].charge > 0),
      );
    }

    /* "20 k in 500", "25 g glucose in 500 ml", "40 mmol kcl per litre", "na 154" */
    function amounts(words, clauses) {
      for (let at = 0; at < words.length; at += 1) {
        const word = words[at];
        if (word.used || !isNumber(word)) continue;
        const right = measureAt(words, beyondLinks(words, at + 1, 1));
        const left = measureAt(words, beyondLinks(words, at - 1, -1), true);
        for (const found of [right, left, word.number.unit ? elsewhere(words, word.number.unit) : null]) {
          const places = found ? fitting(found.places, word.number.unit) : [];
          if (!places.length) continue;
          word.used = true;
          use(words, found.start, found.end);
          const volume = volumeIn(words, Math.max(at + 1, found.end));
          const bare = found === left && !word.number.unit;
          const per = volume || (bare || measures[places[0]].kind === "total" ? { ml: litre } : null);
          const explicit = Boolean(volume || word.number.unit);
          clauses.push({ test: "=", places, typed: word.number, per, explicit });
          break;
        }
      }
    }

    function elsewhere(words, unit) {
      for (let at = 0; at < words.length; at += 1) {
        const found = measureAt(words, at);
        if (found && fitting(found.places, unit).length) return found;
      }
      return null;
    }

    /* The volume an amount is in: what follows it first, then any other volume typed. */
    function volumeIn(words, next) {
      const order = [...words.slice(next), ...words.slice(0, next)];
      for (const word of order) {
        if (word.used) continue;
        const at = words.indexOf(word);
        const before = words[at - 1] && set.beforeVolume.has(words[at - 1].text);
        if (word.text === "/l" || word.text === "/ml") {
          word.used = true;
          return { ml: word.text === "/l" ? litre : 1 };
        }
        if (isNumber(word) && (word.number.unit === "ml" || (word.volume && (before || word.leads)))) {
          word.used = true;
          return { ml: Number(word.number.figure), sold: true };
        }
      }
      return null;
    }

    function clausesOf(words) {
      const clauses = [];
      comparisons(words, clauses);
      polarity(words, clauses);
      amounts(words, clauses);
      return clauses;
    }

    const decimalsOf = (text) => (text.split(".")[1] || "").length;
    const printed = (figure, text) => Number(figure.toFixed(decimalsOf(text)));

    /* Whether a record meets a clause: null for no, words for why. Unknown is neither. */
    function meets(clause, place) {
      for (const key of clause.places) {
        const why = met(clause, key, place);
        if (why) return why;
      }
      return null;
    }

    function met(clause, key, place) {
      const { label, unit, charge } = measures[key];
      const found = held[place].get(key);
      if (found && !found.figures.length) return null;
      if (clause.test === "lacks") return found ? null : "no " + label;
      if (clause.test === "holds") return found ? label + " " + found.shown + "\u00a0" + unit : null;
      const figures = found ? found.figures : [0];
      const scale = clause.typed.unit === "meq" ? charge : 1;
      const typed = Number(clause.typed.figure);
      const equal = (ml) =>
        figures.some((one) => printed((one * scale * ml) / litre, clause.typed.figure) === typed);
      if (clause.test !== "=") {
        const figure = printed(figures[0] * scale, clause.typed.figure);
        const yes = { "<": figure < typed, ">": figure > typed, "<=": figure <= typed, ">=": figure >= typed };
        return yes[clause.test] ? (found ? label + " " + found.shown + "\u00a0" + unit : "no " + label) : null;
      }
      return equalIn(clause, place, equal, label, unit);
    }

    function equalIn(clause, place, equal, label, unit) {
      const sizes = data.records[place].sizes;
      const of = clause.typed.figure + "\u00a0" + written(clause.typed.unit, unit) + " " + label;
      const inOne = (ml) => of + (ml === litre ? " in 1\u00a0L" : " in " + ml + "\u00a0mL");
      if (clause.per) {
        const sold = !clause.per.sold || sizes.includes(clause.per.ml);
        return sold && equal(clause.per.ml) ? inOne(clause.per.ml) : null;
      }
      if (equal(litre)) return inOne(litre);
      const size = sizes.find((ml) => equal(ml));
      return size === undefined ? null : inOne(size);
    }

    const written = (typed, unit) => (typed === "meq" ? "mEq" : unit.replace("/L", ""));

    /* A fluid that does not tell what was asked: it is left out, and that is said. */
    const silent = (clauses, place) =>
      clauses.some((clause) =>
        clause.places.every((key) => held[place].has(key) && !held[place].get(key).figures.length),
      );

    return { clausesOf, meets, silent };
  }

  window.isofolio = window.isofolio || {};
  window.isofolio.finderQuestions = asker;
})();
