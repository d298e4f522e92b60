/* Questions about contents for the finder: "without potassium", "k 40", "20 mmol k in 500".
   A question becomes clauses, and marks the words it used. A clause is
     test    "lacks", "holds", "=", "<", ">", "<=" or ">="
     places  the measures it may be about (places in the index's list)
     typed   the number; per: the volume it is in, absent where any will do
     strict  whether it can mean nothing else.
   Words, figures and units come with the index; this file holds no figure of its own. */
(function () {
  "use strict";

  /* Which measures a unit can be of; a number without one means millimoles or the osmolarity. */
  const KINDS = {
    "": ["particle", "millimoles", "total"],
    g: ["grams"],
    mmol: ["particle", "millimoles"],
    meq: ["particle", "millimoles"],
    mosm: ["total"],
  };
  const LITRE = "/l";
  const MILLILITRE = "/ml";

  function asker(data) {
    const { questions, measures, records } = data;
    const litre = data.spelling.litre;
    const signs = new Map(Object.entries(questions.signs));
    const isOne = (list, word) => Boolean(word) && questions[list].includes(word.text);
    const isNumber = (word) => Boolean(word && word.number);
    const said = new Map();
    let longest = 1;
    measures.forEach((measure, place) => {
      for (const word of measure.words) {
        said.set(word, [...(said.get(word) || []), place]);
        longest = Math.max(longest, word.split(" ").length);
      }
    });
    const held = records.map((record) => new Map(record.held.map(([key, ...what]) => [key, what])));

    /* ---- Reading a question. ---- */

    /* The longest name of something measured that begins at a word, or ends there. */
    function measureAt(words, at, backwards) {
      for (let length = longest; length >= 1; length -= 1) {
        const start = backwards ? at - length + 1 : at;
        const part = start < 0 ? [] : words.slice(start, start + length);
        if (part.length < length || part.some((word) => word.used)) continue;
        const places = said.get(part.map((word) => word.text).join(" "));
        if (places) return { places, start, end: start + length };
      }
      return null;
    }

    function beyondLinks(words, from, step) {
      let at = from;
      while (isOne("links", words[at])) at += step;
      return at;
    }

    const fitting = (found, unit) =>
      (found ? found.places : []).filter((place) => {
        const { kind, charge } = measures[place];
        return (KINDS[unit] || []).includes(kind) && (unit !== "meq" || charge > 0);
      });
    const particles = (found) => (found ? found.places : []).filter((place) => measures[place].kind === "particle");

    /* Marks words as used; `of` the ones that name what is measured. */
    function use(words, from, to, found) {
      words.forEach((word, at) => {
        if (at >= from && at < to) word.used = true;
        if (found && at >= found.start && at < found.end) word.used = word.of = true;
      });
    }

    /* "k < 5", "sodium more than 150", "under 5 potassium" */
    function comparisons(words, clauses) {
      words.forEach((word, at) => {
        const test = signs.get(word.text);
        const to = beyondLinks(words, at + 1, 1);
        if (!test || word.used || !isNumber(words[to])) return;
        const per = words[to + 1] && words[to + 1].text === LITRE ? words[to + 1] : null;
        const before = measureAt(words, beyondLinks(words, at - 1, -1), true);
        const found = before || measureAt(words, beyondLinks(words, to + (per ? 2 : 1), 1));
        const places = fitting(found, words[to].number.unit);
        if (!places.length) return;
        clauses.push({ test, places, typed: words[to].number, strict: true });
        use(words, Math.min(at, found.start), Math.max(to + 1, found.end));
        if (per) per.used = true;
      });
    }

    /* "without potassium or calcium", "with lactate" */
    function polarities(words, clauses) {
      words.forEach((word, at) => {
        const test = isOne("without", word) ? "lacks" : isOne("with", word) ? "holds" : "";
        let from = at + 1;
        while (test) {
          const found = measureAt(words, beyondLinks(words, from, 1));
          const counted = found && (isNumber(words[found.end]) || isNumber(words[at - 1]));
          if (!particles(found).length || (counted && test === "holds")) break;
          clauses.push({ test, places: particles(found), strict: true });
          use(words, at, found.end);
          if (!isOne("and", words[found.end])) break;
          from = found.end + 1;
        }
      });
    }

    /* "potassium free", "calcium containing" */
    function endings(words, clauses) {
      words.forEach((word, at) => {
        const found = measureAt(words, at);
        const after = found ? words[found.end] : null;
        const test = isOne("free", after) ? "lacks" : isOne("holding", after) ? "holds" : "";
        if (!test || !particles(found).length || isNumber(words[found.end + 1])) return;
        clauses.push({ test, places: particles(found), strict: true });
        use(words, found.start, found.end + 1);
      });
    }

    /* "20 k in 500", "25 g glucose in 500 ml", "40 mmol kcl per litre", "na 154" */
    function amounts(words, clauses, measured) {
      words.forEach((word, at) => {
        if (word.used || !isNumber(word) || Boolean(word.number.unit) !== measured) return;
        const { unit } = word.number;
        const right = measureAt(words, beyondLinks(words, at + 1, 1));
        const left = measureAt(words, beyondLinks(words, at - 1, -1), true);
        const anywhere = () => words.map((_, from) => measureAt(words, from)).find((one) => fitting(one, unit).length);
        const near = [right, left].find((one) => fitting(one, unit).length);
        const found = near || (unit ? anywhere() : null);
        if (!found) return;
        const places = fitting(found, unit);
        use(words, at, at + 1, found);
        const volume = volumeOf(words, Math.max(at + 1, found.end));
        const inLitre = measures[places[0]].kind === "total" || (found === left && !unit);
        const per = volume || (inLitre ? { millilitres: litre } : null);
        clauses.push({ test: "=", places, typed: word.number, per, strict: Boolean(volume || unit) });
      });
    }

    /* The volume an amount is in: what follows it first, then any other volume typed. */
    function volumeOf(words, next) {
      for (const word of [...words.slice(next), ...words.slice(0, next)]) {
        const millilitres = word.used ? 0 : volume(word);
        if (!millilitres) continue;
        word.used = true;
        return { millilitres, sold: isNumber(word) };
      }
      return null;
    }

    function volume(word) {
      if (word.text === LITRE) return litre;
      if (word.text === MILLILITRE) return 1;
      return isNumber(word) && word.side ? Number(word.number.figure) : 0;
    }

    function clausesOf(words) {
      const clauses = [];
      for (const read of [comparisons, polarities, endings]) read(words, clauses);
      for (const measured of [true, false]) amounts(words, clauses, measured);
      return clauses;
    }

    /* ---- Asking a record. Unknown is neither yes nor no. ---- */

    const decimalsOf = (text) => (text.split(".")[1] || "").length;
    const rounded = (figure, like) => Number(figure.toFixed(decimalsOf(like)));
    const isUnknown = (what) => Boolean(what) && !what[0].length;
    const isSilent = (clause, place) => clause.places.every((key) => isUnknown(held[place].get(key)));

    /* Why a record meets a clause, in words; null where it does not. `printed`: by its label only. */
    function meets(clause, place) {
      for (const key of clause.places) {
        const what = held[place].get(key);
        const why = isUnknown(what) ? null : meetsOne(clause, measures[key], what, records[place].sizes);
        if (why) return why;
      }
      return null;
    }

    function meetsOne(clause, measure, what, sizes) {
      const told = { text: what ? measure.label + " " + what[1] + "\u00a0" + measure.unit : "no " + measure.label };
      if (clause.test === "lacks") return what ? null : told;
      if (clause.test === "holds") return what ? told : null;
      if (clause.test === "=" && !what && Number(clause.typed.figure)) return null;
      const scale = clause.typed.unit === "meq" ? measure.charge : 1;
      const figures = (what ? what[0] : [0]).map((figure) => figure * scale);
      if (clause.test === "=") return equals(clause, measure, figures, sizes);
      const [figure, typed] = [rounded(figures[0], clause.typed.figure), Number(clause.typed.figure)];
      const than = { "<": figure < typed, ">": figure > typed, "<=": figure <= typed, ">=": figure >= typed };
      return than[clause.test] ? told : null;
    }

    function equals({ typed, per }, measure, figures, sizes) {
      if (per && per.sold && !sizes.includes(per.millilitres)) return null;
      const wanted = Number(typed.figure);
      const unit = typed.unit === "meq" ? "mEq" : measure.unit.replace("/L", "");
      for (const size of per ? [per.millilitres] : [litre, ...sizes]) {
        const order = figures.findIndex((one) => rounded((one * size) / litre, typed.figure) === wanted);
        if (order < 0) continue;
        const volume = size === litre ? "1\u00a0L" : size + "\u00a0mL";
        const text = typed.figure + "\u00a0" + unit + " " + measure.label + " in " + volume;
        return order > 0 ? { text: text + ", as a label prints it", printed: true } : { text };
      }
      return null;
    }

    return { clausesOf, meets, isSilent };
  }

  window.isofolio = window.isofolio || {};
  window.isofolio.finderQuestions = asker;
})();
