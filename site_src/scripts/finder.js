/* The finder: what is typed in the header's box, found among the pages of this folder.
   A classic script without a network: the index is another script, scripts/finder-data.js, which
   is read when the box is first focused. It also brings every list, weight and limit used here;
   this file holds no figure of its own.
   In order: spelling, index, words that fit, questions about contents, search, list, keys. */
(function () {
  "use strict";

  const shared = (window.isofolio = window.isofolio || {});

  /* ---- Spelling: the same steps as finder/spelling.py, with the tables it sends. ---- */

  function speller(tables) {
    const whole = (source) => new RegExp("^(?:" + source + ")$");
    const tokenPattern = new RegExp(tables.patterns.token, "g");
    const number = whole(tables.patterns.number);
    const wordThenDecimal = whole(tables.patterns.wordThenDecimal);
    const numberThenWord = whole(tables.patterns.numberThenWord);
    const wordThenNumber = whole(tables.patterns.wordThenNumber);
    const plural = whole(tables.patterns.plural);
    const steps = tables.steps.map(([find, put]) => [new RegExp(find, "g"), put]);
    const lookup = (table) => new Map(Object.entries(table));
    const characters = lookup(tables.characters);
    const fractions = lookup(tables.fractions);
    const ones = lookup(tables.ones);
    const teens = lookup(tables.teens);
    const tens = lookup(tables.tens);
    const units = lookup(tables.units);
    const same = lookup(tables.same);
    const litreWords = new Set(tables.litreWords);

    function plain(text) {
      let made = Array.from(text).filter((sign) => !tables.raised.includes(sign)).join("");
      made = made.toLowerCase().normalize("NFKD").replace(/\p{Mn}/gu, "");
      made = Array.from(made, (sign) => characters.get(sign) ?? sign).join("");
      return steps.reduce((kept, [find, put]) => kept.replace(find, put), made);
    }

    function partsOf(text) {
      const parts = [];
      for (const found of text.match(tokenPattern) || []) {
        const part = fractions.get(found) ?? (found.startsWith(".") ? "0" + found : found);
        const cut = part.match(wordThenDecimal);
        const measured = part.match(numberThenWord);
        const glued = parts.length ? parts[parts.length - 1].match(wordThenNumber) : null;
        if (cut) parts.push(cut[1], cut[2]);
        else if (measured && units.has(measured[2])) parts.push(measured[1], measured[2]);
        else if (part === "%" && glued) parts.splice(-1, 1, glued[1], glued[2], "%");
        else parts.push(part);
      }
      return parts;
    }

    function wholeNumber(parts, place) {
      const word = parts[place];
      if (tens.has(word)) {
        const more = ones.get(parts[place + 1]) || 0;
        return more ? [tens.get(word) + more, 2] : [tens.get(word), 1];
      }
      if (teens.has(word)) return [teens.get(word), 1];
      return ones.has(word) ? [ones.get(word), 1] : [0, 0];
    }

    function decimals(parts, place) {
      let digits = "";
      if (parts[place] !== tables.point) return digits;
      for (let next = place + 1; ones.has(parts[next]); next += 1) digits += ones.get(parts[next]);
      return digits;
    }

    function withNumbers(parts) {
      const made = [];
      for (let place = 0; place < parts.length; ) {
        const [value, used] = wholeNumber(parts, place);
        const digits = decimals(parts, place + used);
        made.push(digits ? value + "." + digits : used ? String(value) : parts[place]);
        place += digits ? used + 1 + digits.length : Math.max(used, 1);
      }
      return made;
    }

    function figure(text) {
      const [before, after = ""] = text.split(".");
      const kept = after.replace(/0+$/, "");
      return (before.replace(/^0+/, "") || "0") + (kept ? "." + kept : "");
    }

    function measured(part, after) {
      const unit = units.get(after[0]) || "";
      const skipped = after[0] === "a" || after[0] === "1" ? 1 : 0;
      const later = units.get(after[skipped]) || "";
      if (number.test(part)) {
        if (unit === "l") return [figure(String(Number(part) * tables.litre)) + "ml", 2];
        return [figure(part) + unit, unit ? 2 : 1];
      }
      if (part === tables.half && later === "l") return [tables.litre / 2 + "ml", skipped + 2];
      const per = part === "/" || part === "per";
      if (((per || part === "in") && later === "l") || (per && later === "ml"))
        return ["/" + later, skipped + 2];
      if (part === "/" || part === "%") return ["", 1];
      return [litreWords.has(part) ? tables.litre + "ml" : part, 1];
    }

    function word(token) {
      if (!/^[a-z]/.test(token)) return token;
      for (const [typed, common] of tables.spellings) token = token.split(typed).join(common);
      return plural.test(token) ? token.slice(0, -1) : token;
    }

    function tokens(text) {
      const parts = withNumbers(partsOf(plain(text)));
      const made = [];
      for (let place = 0; place < parts.length; ) {
        const [token, used] = measured(parts[place], parts.slice(place + 1, place + 2 + 1));
        if (token) {
          const spelt = word(token);
          made.push(...(same.get(spelt) || spelt).split(" "));
        }
        place += used;
      }
      return made;
    }

    return { tokens, same, units: new Set(units.values()) };
  }

  /* ---- Index: from a word to the names that hold it. Built once, from numbered words. ---- */

  /* Lists of numbers in one array: list `n` is values[starts[n]] to values[starts[n + 1]]. */
  function packed(lists, count) {
    const starts = new Int32Array(count + 1);
    for (const [key] of lists) starts[key + 1] += 1;
    for (let key = 0; key < count; key += 1) starts[key + 1] += starts[key];
    const values = new Int32Array(lists.length);
    const next = starts.slice();
    for (const [key, value] of lists) values[next[key]++] = value;
    return { starts, values };
  }

  function indexOf(data, spelling) {
    const { vocabulary, records } = data;
    const idle = new Set(data.spelling.idle);
    const isIdle = (text) => idle.has(text) || !/^[a-z\d]/.test(text);
    const idlePlace = vocabulary.map(isIdle);
    const names = []; // of all records: which record, its place there (-1: about), its words
    const pairs = []; // word, name
    const prosePairs = []; // word, section
    records.forEach((record, place) => {
      const add = (which, said) => {
        for (const token of new Set(said)) pairs.push([token, names.length]);
        const length = said.reduce((sum, token) => sum + (idlePlace[token] ? 0 : 1), 0);
        names.push({ record: place, which, said, length });
      };
      add(0, record.said);
      record.names.forEach((name, order) => add(order + 1, name[2]));
      add(-1, record.about);
    });
    data.prose.forEach((section, place) => {
      for (const token of new Set([...section.page, ...section.said]))
        prosePairs.push([token, place]);
    });
    const numbers = new Map();
    vocabulary.forEach((text, place) => {
      const number = numberOf(text, spelling.units);
      if (number) numbers.set(number.figure, [...(numbers.get(number.figure) || []), place]);
    });
    const named = packed(pairs, vocabulary.length);
    const inNames = (place) => named.starts[place + 1] > named.starts[place];
    return {
      names,
      named,
      told: packed(prosePairs, vocabulary.length),
      numbers,
      isIdle,
      inNames,
      places: new Map(vocabulary.map((text, place) => [text, place])),
      misspelt: new Set(data.misspelt),
      titles: records.map((record) => titleNumbers(record.said, vocabulary, spelling.units)),
      volumes: new Set(records.flatMap((record) => record.sizes)),
    };
  }

  function numberOf(text, units) {
    const found = text.match(/^(\d+(?:\.\d+)?)(.*)$/);
    if (!found || (found[2] && !units.has(found[2]))) return null;
    return { figure: found[1], unit: found[2] };
  }

  /* The strengths of a title, each with the words it stands behind. */
  function titleNumbers(said, vocabulary, units) {
    const found = new Map();
    let behind = [];
    for (const token of said) {
      const number = numberOf(vocabulary[token], units);
      if (number) {
        found.set(number.figure, new Set(behind));
        behind = [];
      } else behind.push(vocabulary[token]);
    }
    return found;
  }

  /* ---- Words that fit: exactly, as a beginning, or with a slip of the finger. ---- */

  function fitter(data, index, spelling) {
    const { vocabulary, weights, limits } = data;
    const kept = new Map();
    const keptLoose = new Map();

    function firstAt(text) {
      let low = 0;
      let high = vocabulary.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (vocabulary[middle] < text) low = middle + 1;
        else high = middle;
      }
      return low;
    }

    /* A number fits a number, never nearly; a bare one fits one with a unit, save a volume. */
    function fitsNumber(word) {
      const made = [];
      for (const place of index.numbers.get(word.number.figure) || []) {
        const { unit } = numberOf(vocabulary[place], spelling.units);
        if (unit === word.number.unit) made.push([place, 1]);
        else if (unit === "ml" ? word.volume : !unit || !word.number.unit)
          made.push([place, unit === "%" || !unit ? 1 : weights.bare]);
      }
      return made.sort((one, other) => other[1] - one[1]);
    }

    function fitsWord(text) {
      const made = [];
      const exact = index.places.get(text);
      if (exact !== undefined) made.push([exact, 1]);
      if (text.length < 2 || !/^[a-z]/.test(text)) return made;
      for (let at = firstAt(text); at < vocabulary.length; at += 1) {
        const longer = vocabulary[at];
        if (!longer.startsWith(text)) break;
        if (longer !== text)
          made.push([at, weights.begun + ((1 - weights.begun) * text.length) / longer.length]);
      }
      return made.sort((one, other) => other[1] - one[1]);
    }

    function fits(word) {
      const key = word.text + (word.volume ? " volume" : "");
      if (!kept.has(key)) kept.set(key, word.number ? fitsNumber(word) : fitsWord(word.text));
      return kept.get(key);
    }

    const isKnown = (text) => {
      const place = index.places.get(text);
      return place !== undefined && index.inNames(place);
    };

    function fitsLoosely(text) {
      if (!keptLoose.has(text)) keptLoose.set(text, looseFits(text));
      return keptLoose.get(text);
    }

    function looseFits(text) {
      const edits = limits.loose.reduce((most, [letters, n]) => (text.length >= letters ? n : most), 0);
      const made = [];
      if (!edits || !/^[a-z]+$/.test(text)) return made;
      for (let place = 0; place < vocabulary.length; place += 1) {
        const other = vocabulary[place];
        if (Math.abs(other.length - text.length) > edits || !index.inNames(place)) continue;
        if (!/^[a-z]+$/.test(other) || other === text) continue;
        const away = distance(text, other, edits);
        if (away <= edits) made.push([place, weights.loose / away]);
      }
      return made.sort((one, other) => other[1] - one[1]);
    }

    return { fits, fitsLoosely, isKnown };
  }

  /* Edits between two words; letters that changed places count once. Stops above `most`. */
  function distance(one, other, most) {
    let before = [];
    let last = Array.from({ length: other.length + 1 }, (_, at) => at);
    for (let row = 1; row <= one.length; row += 1) {
      const line = [row];
      let least = row;
      for (let at = 1; at <= other.length; at += 1) {
        const differs = one[row - 1] === other[at - 1] ? 0 : 1;
        let edits = Math.min(last[at] + 1, line[at - 1] + 1, last[at - 1] + differs);
        if (row > 1 && at > 1 && one[row - 1] === other[at - 2] && one[row - 2] === other[at - 1])
          edits = Math.min(edits, before[at - 2] + 1);
        line.push(edits);
        least = Math.min(least, edits);
      }
      if (least > most) return most + 1;
      before = last;
      last = line;
    }
    return last[other.length];
  }

  /* ---- Questions about contents: "without potassium", "k 40", "20 mmol k in 500". ---- */

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

  /* ---- Search. ---- */

  /* How good a hit is, best first. What fits only loosely, or in part, comes after all these. */
  const RANK = ["exact", "title", "page", "name", "about", "other"];
  const rankOf = (name) => RANK.indexOf(name);
  const PHRASES = ["said", "active", "sorted", "joined"];

  function searcher(data) {
    const spelling = speller(data.spelling);
    const index = indexOf(data, spelling);
    const fit = fitter(data, index, spelling);
    const ask = asker(data, index);
    const { records, limits, weights } = data;
    const { names } = index;
    const nameSum = new Float32Array(names.length);
    const nameCount = new Uint8Array(names.length);
    const nameToken = new Int32Array(names.length).fill(-1);
    const recordToken = new Int32Array(records.length).fill(-1);
    const recordSum = new Float32Array(records.length);
    const recordBits = new Int32Array(records.length);
    const recordLoose = new Int32Array(records.length);
    const phrases = phraseMaps();

    /* Words of the question: cut further where that makes known words of an unknown one. */
    function wordsOf(text) {
      const texts = spelling.tokens(text).flatMap((token) => pieces(token));
      const words = texts.map((token) => ({
        text: token,
        number: numberOf(token, spelling.units),
        idle: index.isIdle(token),
        used: false,
      }));
      const { beforeVolume, afterVolume } = data.questions;
      words.forEach((word, at) => {
        const before = at > 0 && beforeVolume.includes(words[at - 1].text);
        const after = at + 1 < words.length && afterVolume.includes(words[at + 1].text);
        const size = word.number && !word.number.unit && index.volumes.has(Number(word.number.figure));
        word.leads = after;
        word.volume = Boolean(size && (before || after));
      });
      return words;
    }

    function pieces(token) {
      const number = numberOf(token, spelling.units);
      if (number || fit.fits({ text: token }).length) return [token];
      const known = (part) => fit.isKnown(part) || spelling.same.has(part);
      const halves = token.match(/^(\d+(?:\.\d+)?)([a-z]+)$/) || token.match(/^([a-z]+)(\d+)$/);
      if (halves && known(halves[/^\d/.test(token) ? 2 : 1]))
        return [halves[1], halves[2]].flatMap(respelt);
      for (let at = token.length - 2; at >= 2; at -= 1) {
        const parts = [token.slice(0, at), token.slice(at)];
        if (parts.every((part) => /^[a-z]+$/.test(part) && known(part))) return parts.flatMap(respelt);
      }
      return [token];
    }
    const respelt = (token) => (spelling.same.get(token) || token).split(" ");

    /* Ambiguous words by their spelling; looser keys never replace stricter ones. */
    function phraseMaps() {
      const maps = Object.fromEntries(PHRASES.map((key) => [key, new Map()]));
      for (const key of PHRASES)
        for (const word of data.words) {
          const made = phraseKeys(word.said.split(" "))[key];
          if (made && !maps[key].has(made)) maps[key].set(made, word);
        }
      return maps;
    }

    function phraseKeys(texts) {
      const active = texts.filter((text) => !index.isIdle(text));
      const counted = active.some((text) => /^\d/.test(text));
      return {
        said: texts.join(" "),
        active: active.join(" "),
        sorted: counted ? "" : active.slice().sort().join(" "),
        joined: active.join(""),
      };
    }

    function phraseOf(texts) {
      const keys = phraseKeys(texts);
      for (const key of PHRASES) {
        const found = keys[key] && phrases[key].get(keys[key]);
        if (found) return found;
      }
      return null;
    }

    /* Every record that holds one of the words, with how well it fits. */
    function textHits(words, allowed, loosely) {
      const active = words.filter((word) => !word.idle).slice(0, limits.tokens);
      const used = active.length ? active : words.slice(0, limits.tokens);
      const touched = gather(used, loosely);
      const hits = [];
      const best = bestNames(touched, used.length);
      for (const [place, name] of best) {
        if (!allowed || allowed(place)) hits.push(hitOf(place, name, used));
      }
      for (const { name } of touched.names) clearName(name);
      for (const place of touched.records) clearRecord(place);
      return hits.sort(byWorth);
    }

    function gather(used, loosely) {
      const touched = { names: [], records: [] };
      used.forEach((word, order) => {
        const fitting = fit.fits(word).map(([token, quality]) => [token, quality, 0]);
        const exact = fitting.some(([, quality]) => quality === 1);
        if (loosely && !word.number && !exact)
          for (const [token, quality] of fit.fitsLoosely(word.text)) fitting.push([token, quality, 1]);
        for (const [token, quality, loose] of fitting) spread(touched, order, token, quality, loose);
      });
      return touched;
    }

    function spread(touched, order, token, quality, loose) {
      const { starts, values } = index.named;
      for (let at = starts[token]; at < starts[token + 1]; at += 1) {
        const name = values[at];
        const { record, which } = names[name];
        if (nameToken[name] !== order) {
          if (nameToken[name] < 0) touched.names.push({ name });
          nameToken[name] = order;
          nameSum[name] += quality;
          nameCount[name] += 1;
        }
        if (recordToken[record] === order) continue;
        if (recordToken[record] < 0) touched.records.push(record);
        recordToken[record] = order;
        recordSum[record] += which < 0 ? quality * weights.about : quality;
        recordBits[record] |= 1 << order;
        if (loose) recordLoose[record] |= 1 << order;
      }
    }

    function clearName(name) {
      nameToken[name] = -1;
      nameSum[name] = 0;
      nameCount[name] = 0;
    }

    function clearRecord(place) {
      recordToken[place] = -1;
      recordSum[place] = 0;
      recordBits[place] = 0;
      recordLoose[place] = 0;
    }

    /* For each record the name that fits best: most words, then most of the name. */
    function bestNames(touched, count) {
      const best = new Map();
      const worth = (name) =>
        nameCount[name] + nameSum[name] / (Math.max(count, names[name].length) + 1);
      for (const { name } of touched.names) {
        const { record, which } = names[name];
        const kept = best.get(record);
        if (which >= 0 && (kept === undefined || worth(name) > worth(kept))) best.set(record, name);
      }
      for (const place of touched.records) if (!best.has(place)) best.set(place, -1);
      return best;
    }

    function hitOf(place, name, used) {
      const fluid = records[place].kind === "fluid";
      const all = used.every((_, order) => recordBits[place] & (1 << order));
      const missing = used.filter((_, order) => !(recordBits[place] & (1 << order)));
      const wrong = fluid && all ? misplaced(place, used) : [];
      const loose = recordLoose[place] !== 0;
      const title = name < 0 ? -1 : name - names[name].which;
      const inTitle = title >= 0 && nameCount[title] === used.length;
      const inName = name >= 0 && nameCount[name] === used.length;
      const length = name < 0 ? 1 : Math.max(used.length, names[name].length);
      const exact = inName && length === used.length && nameSum[name] > used.length - 1 + weights.bare;
      const kind = exact && fluid ? "exact" : fluid && inTitle ? "title" : "";
      const rank = kind || (exact && "page") || (fluid ? (inName ? "name" : "about") : "other");
      const named = name >= 0 && names[name].which >= 0 && nameCount[name] > 0;
      const shown = rank === "title" ? title : name;
      const whole = Math.max(used.length, shown < 0 ? 1 : names[shown].length);
      return {
        place,
        all: all && !wrong.length,
        loose,
        missing: [...missing, ...wrong].map((word) => word.text),
        named,
        rank: rankOf(rank),
        worth:
          (shown < 0 ? recordSum[place] / used.length / 2 : nameSum[shown] / whole) +
          weights.strength * strengths(place, used) +
          weights.order * followed(shown, used),
        name: rank === "title" || name < 0 ? 0 : names[name].which,
        why: [],
      };
    }

    /* Numbers that stand with another substance in the title than in the question. */
    function misplaced(place, used) {
      const title = index.titles[place];
      const everywhere = new Set([...title.values()].flatMap((words) => [...words]));
      return used.filter((word, at) => {
        const behind = word.number && title.get(word.number.figure);
        if (!behind || !behind.size || title.size < 2) return false;
        const beside = neighbours(used, at).filter((text) => everywhere.has(text));
        return beside.length > 0 && !beside.some((text) => behind.has(text));
      });
    }

    /* The words between a number and the numbers before and after it. */
    function neighbours(used, at) {
      const found = [];
      for (let before = at - 1; before >= 0 && !used[before].number; before -= 1)
        found.push(used[before].text);
      for (let after = at + 1; after < used.length && !used[after].number; after += 1)
        found.push(used[after].text);
      return found;
    }

    function strengths(place, used) {
      const asked = used.filter((word) => word.number).map((word) => word.number.figure);
      const title = index.titles[place];
      if (!asked.length || !title.size) return 0;
      const both = asked.filter((figure) => title.has(figure)).length;
      return both / Math.max(asked.length, title.size);
    }

    /* How many words of the question follow each other in the name as well. */
    function followed(name, used) {
      if (name < 0 || used.length < 2) return 0;
      const said = names[name].said.map((token) => data.vocabulary[token]);
      let pairs = 0;
      for (let at = 1; at < used.length; at += 1) {
        const found = said.indexOf(used[at - 1].text);
        if (found >= 0 && said[found + 1] === used[at].text) pairs += 1;
      }
      return pairs / (used.length - 1);
    }

    const withdrawn = (place) => (records[place].status === "retired" ? 1 : 0);
    const byWorth = (one, other) =>
      withdrawn(one.place) - withdrawn(other.place) ||
      one.rank - other.rank ||
      other.worth - one.worth ||
      one.place - other.place;

    /* Sections whose text, with the title of their page, holds every word. */
    function sections(words) {
      const active = words.filter((word) => !word.idle);
      if (!active.length) return [];
      const counts = new Map();
      active.slice(0, limits.tokens).forEach((word, order) => {
        const seen = new Set();
        for (const [token] of fit.fits(word)) {
          const { starts, values } = index.told;
          for (let at = starts[token]; at < starts[token + 1]; at += 1) {
            const place = values[at];
            if (seen.has(place)) continue;
            seen.add(place);
            const own = data.prose[place].said.includes(token) ? 1 : 0;
            const [count, owns] = counts.get(place) || [0, 0];
            if (count === order) counts.set(place, [count + 1, owns + own]);
          }
        }
      });
      const found = [...counts].filter(([, [count, owns]]) => count === active.length && owns > 0);
      found.sort((one, other) => other[1][1] - one[1][1] || one[0] - other[0]);
      const texts = new Set();
      const first = found.filter(([place]) => !texts.has(data.prose[place].text) && texts.add(data.prose[place].text));
      return first.slice(0, limits.prose).map(([place]) => ({ section: place }));
    }

    /* The candidates of an ambiguous word, or of a part of the question that is one. */
    function ambiguous(words, hits) {
      const texts = words.map((word) => word.text);
      const whole = phraseOf(texts);
      if (whole) return { word: whole, places: whole.ids, loose: false };
      const exact = hits.filter((hit) => hit.all && hit.rank === rankOf("exact"));
      if (exact.length) return null;
      const marked = texts.map((text) => (/^\d+(\.\d+)?$/.test(text) ? text + "%" : text));
      const percent = phraseOf(marked);
      if (percent) return { word: percent, places: percent.ids, loose: false };
      return narrowed(words, hits);
    }

    function narrowed(words, hits) {
      const fitting = new Set(hits.filter((hit) => hit.all).map((hit) => hit.place));
      for (let length = words.length - 1; length >= 1; length -= 1) {
        for (let from = 0; from + length <= words.length; from += 1) {
          const part = words.slice(from, from + length);
          if (part.every((word) => word.idle)) continue;
          const word = phrases.said.get(part.map((one) => one.text).join(" "));
          if (!word) continue;
          const rest = [...words.slice(0, from), ...words.slice(from + length)];
          const among = textHits(rest, (place) => word.ids.includes(place), false);
          const places = among.filter((hit) => hit.all).map((hit) => hit.place);
          if (places.length > 1) return { word, places: byOrder(word.ids, places), loose: false };
          if (places.length === 1 || fitting.size) return null;
        }
      }
      return null;
    }
    const byOrder = (order, places) => order.filter((place) => places.includes(place));

    /* "pottasium": the word that was meant, when that one is ambiguous. */
    function ambiguousIfSpelt(words, hits) {
      if (hits.some((hit) => hit.all && !hit.loose && hit.rank === rankOf("exact"))) return null;
      let changed = false;
      const texts = words.map((word) => {
        const place = index.places.get(word.text);
        if (word.number || word.idle) return word.text;
        if (place !== undefined && index.inNames(place) && !index.misspelt.has(place)) return word.text;
        const meant = fit.fitsLoosely(word.text).find(([token]) => !index.misspelt.has(token));
        if (!meant) return word.text;
        changed = true;
        return data.vocabulary[meant[0]];
      });
      const word = changed && phraseOf(texts);
      return word ? { word, places: word.ids, loose: true } : null;
    }

    function asHits(found) {
      return found.places.map((place) => ({
        place,
        all: true,
        loose: found.loose,
        missing: [],
        name: 0,
        why: [],
      }));
    }

    /* Fluids that hold what was asked; the words left over choose among them. */
    function held(words, clauses) {
      const why = new Map();
      let silent = 0;
      records.forEach((record, place) => {
        if (record.kind !== "fluid" || withdrawn(place)) return;
        const reasons = clauses.map((clause) => ask.meets(clause, place));
        if (reasons.every(Boolean)) why.set(place, reasons);
        else if (ask.silent(clauses, place)) silent += 1;
      });
      const rest = words.filter((word) => !word.used && !word.idle);
      const plainly = [...why.keys()].map((place) => asHits({ places: [place], loose: false })[0]);
      let hits = plainly;
      if (rest.length) {
        const among = textHits(rest, (place) => why.has(place), true);
        const whole = among.filter((hit) => hit.all);
        hits = whole.length ? whole : plainly.map((hit) => ({ ...hit, missing: rest.map((w) => w.text) }));
      }
      for (const hit of hits) hit.why = why.get(hit.place);
      return { hits, silent };
    }

    function search(text) {
      const words = wordsOf(text);
      if (!words.length) return { hits: [], ask: null, silent: 0, sure: false, empty: true };
      const strict = textHits(words, null, false);
      const first = ambiguous(words, strict);
      const clauses = first ? [] : ask.clausesOf(words);
      const answer = clauses.length ? held(words, clauses) : { hits: [], silent: 0 };
      const asked = clauses.some((clause) => clause.explicit) || answer.hits.length > 0;
      const exact = strict.filter((hit) => hit.all && hit.rank === rankOf("exact"));
      if (asked) return finished([...exact, ...answer.hits], [], null, answer.silent);
      return finished(...textAnswer(words, strict, first), 0);
    }

    function textAnswer(words, strict, first) {
      let all = strict.filter((hit) => hit.all);
      let asking = first;
      let some = [];
      const pages = (hit) => records[hit.place].kind !== "source";
      if (!asking && !all.some(pages)) {
        const loose = textHits(words, null, true);
        asking = ambiguousIfSpelt(words, loose);
        all = [...all, ...loose.filter((hit) => hit.all && hit.loose)];
        if (!all.some(pages)) some = partly(loose);
      } else if (!asking) asking = ambiguousIfSpelt(words, strict);
      const told = asking || all.some(pages) || words.length ? sections(words) : [];
      const hits = [...(asking ? asHits(asking) : []), ...all];
      return [hits, [...told, ...some], asking];
    }

    /* Pages that hold some of the words: the most words first, never on a number alone. */
    function partly(hits) {
      const found = hits.filter((hit) => !hit.all && hit.named && records[hit.place].kind !== "source");
      const fewest = Math.min(...found.map((hit) => hit.missing.length));
      return found.filter((hit) => hit.missing.length === fewest);
    }

    /* One list without doubles: fluids, then other pages, then sections, then what fits in part. */
    function finished(pagesFound, rest, asking, silent) {
      const seen = new Set();
      const once = (hit) => hit.section !== undefined || (!seen.has(hit.place) && seen.add(hit.place));
      const isSource = (hit) => hit.section === undefined && records[hit.place].kind === "source";
      const all = pagesFound.filter(once);
      const main = all.filter((hit) => !isSource(hit));
      const sources = all.filter(isSource).slice(0, limits.others);
      const hits = [...main, ...rest.filter((hit) => hit.section !== undefined), ...sources];
      hits.push(...rest.filter((hit) => hit.section === undefined && once(hit)));
      return { hits, ask: asking ? asking.word : null, silent, sure: isSure(main, asking), empty: false };
    }

    /* Whether Enter may open the first hit: one exact name, or the only page that fits. */
    function isSure(main, asking) {
      const [first, second] = main;
      if (!first || asking || first.loose || first.missing.length) return false;
      if (!second) return true;
      const exact = (hit) => hit.rank === rankOf("exact") || hit.rank === rankOf("page");
      return exact(first) && !(exact(second) && second.rank === first.rank);
    }

    return { search, tokens: spelling.tokens };
  }

  /* ---- The list below the box. ---- */

  const box = document.getElementById("finder-box");
  const results = document.getElementById("finder-results");
  if (!box || !results) return;
  const root = document.documentElement.dataset.root || "";
  const LABEL = "Read the generic name on the label.";

  let engine = null;
  let loading = false;
  let answer = null;
  let selected = -1;

  const status = element("p", "finder-status");
  status.setAttribute("role", "status");
  status.setAttribute("aria-live", "polite");
  results.after(status);

  function element(tag, className, text) {
    const made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  function load() {
    if (engine || loading) return;
    loading = true;
    const script = document.createElement("script");
    script.src = root + "scripts/finder-data.js";
    script.onload = () => {
      loading = false;
      engine = searcher(shared.finderData);
      shared.finder = engine;
      if (box.value.trim()) update();
    };
    script.onerror = () => {
      loading = false;
      script.remove();
      show([element("p", "finder-note", "The index could not be read: scripts/finder-data.js is missing or damaged in this copy. Look in All fluids.")], [allFluids()]);
      say("The index could not be read. Look in All fluids.");
    };
    document.head.append(script);
  }

  function allFluids() {
    const link = element("a", "finder-hit");
    const { at, label } = engine ? shared.finderData.all : { at: "fluids.html", label: "All fluids" };
    link.href = root + at;
    link.append(element("span", "finder-title", label));
    return link;
  }

  const say = (text) => (status.textContent = text);

  /* Notes above and below, links between them in a list that the box controls. */
  function show(above, links, below) {
    const list = element("div", "finder-list");
    list.id = "finder-list";
    list.setAttribute("role", "listbox");
    list.setAttribute("aria-label", "Found");
    links.forEach((link, order) => {
      link.id = "finder-hit-" + order;
      link.tabIndex = -1;
      link.setAttribute("role", "option");
      link.setAttribute("aria-selected", "false");
      list.append(link);
    });
    results.replaceChildren(...above, list, ...(below || []));
    results.classList.add("open");
    box.setAttribute("aria-expanded", "true");
    box.setAttribute("aria-controls", "finder-list");
    select(-1);
    results.scrollTop = 0;
  }

  function hide() {
    results.replaceChildren();
    results.classList.remove("open");
    box.setAttribute("aria-expanded", "false");
    box.setAttribute("aria-controls", "finder-results");
    select(-1);
    answer = null;
  }

  function titleOf(pairs) {
    const title = element("span", "finder-title");
    for (const [words, strength] of pairs) {
      title.append((title.childNodes.length ? " " : "") + words);
      if (strength) title.append("\u00a0", element("b", "", strength));
    }
    return title;
  }

  function recordLink(hit) {
    const { records, limits, nameKinds } = shared.finderData;
    const record = records[hit.place];
    const link = element("a", "finder-hit");
    link.href = root + record.at;
    link.append(titleOf(record.title), " ", element("span", "finder-kind", record.kind));
    const facts = [record.status, record.role, record.potassium, ...hit.why.filter((why) => why !== record.potassium)];
    line(link, "finder-facts", facts.filter(Boolean).join(" · "));
    const name = hit.name > 0 ? record.names[hit.name - 1] : null;
    if (name && nameKinds[name[1]] !== "misspelling") line(link, "finder-name", "also called " + name[0]);
    const absent = hit.missing.length ? "not found: " + hit.missing.join(", ") : "";
    if (hit.loose || absent) line(link, "finder-flag", ["close match", absent].filter(Boolean).join("; "));
    const alike = record.alike.slice(0, limits.alike);
    if (alike.length) line(link, "finder-alike", "easily mistaken for " + alike.map(alikeText).join("; "));
    return link;
  }

  function alikeText([place, differs]) {
    const title = shared.finderData.records[place].title;
    return title.map((pair) => pair.filter(Boolean).join("\u00a0")).join(" ") + " (" + differs + ")";
  }

  function line(link, className, text) {
    if (text) link.append(" ", element("span", className, text));
  }

  function sectionLink(hit) {
    const section = shared.finderData.prose[hit.section];
    const link = element("a", "finder-hit finder-section");
    link.href = root + section.at;
    link.append(element("span", "finder-title", section.title + ": " + section.heading));
    link.append(" ", element("span", "finder-kind", "section"));
    line(link, "finder-facts", section.text);
    return link;
  }

  function update() {
    if (!engine) {
      load();
      return;
    }
    if (!box.value.trim()) {
      hide();
      say("");
      return;
    }
    answer = engine.search(box.value);
    const { hits } = answer;
    if (!hits.length) {
      show([element("p", "finder-note", "Nothing found. " + LABEL)], [allFluids()]);
      say("Nothing found. " + LABEL + " All fluids is offered.");
      return;
    }
    const asked = answer.ask ? answer.ask.ids.length : 0;
    const shown = hits.slice(0, Math.max(shared.finderData.limits.hits, asked));
    const links = shown.map((hit) => (hit.section === undefined ? recordLink(hit) : sectionLink(hit)));
    const below = [];
    if (hits.length > shown.length) {
      below.push(element("p", "finder-note", hits.length - shown.length + " more: type another word, or look in All fluids."));
      links.push(allFluids());
    }
    if (answer.silent) below.push(element("p", "finder-note", silence(answer.silent)));
    show(notesAbove(), links, below);
    say(summary(hits));
  }

  const silence = (count) =>
    count + (count === 1 ? " fluid does" : " fluids do") + " not declare it and " + (count === 1 ? "is" : "are") + " left out. Unknown is not none.";

  function notesAbove() {
    if (!answer.ask) return [];
    const note = element("p", "finder-note finder-ask");
    note.append(element("b", "", "More than one fluid may be meant."), " " + answer.ask.apart);
    return [note];
  }

  function summary(hits) {
    const found = hits.length + " found";
    if (answer.ask) return "More than one fluid may be meant. " + answer.ask.apart + " " + found + ".";
    const loose = hits[0].loose || (hits[0].missing || []).length ? ", close match" : "";
    return found + loose + ". Use the arrow keys to choose.";
  }

  /* ---- Keys, mouse, focus. ---- */

  const options = () => Array.from(results.querySelectorAll(".finder-hit"));

  function select(order) {
    selected = order;
    const links = options();
    links.forEach((link, at) => link.setAttribute("aria-selected", String(at === order)));
    if (order < 0 || !links[order]) {
      box.removeAttribute("aria-activedescendant");
      return;
    }
    box.setAttribute("aria-activedescendant", links[order].id);
    links[order].scrollIntoView({ block: "nearest" });
  }

  function move(step) {
    const count = options().length;
    if (!count) {
      update();
      return;
    }
    const next = selected + step;
    select(next >= count ? 0 : next < -1 ? count - 1 : next);
  }

  function open() {
    const links = options();
    if (selected >= 0 && links[selected]) links[selected].click();
    else if (answer && answer.sure) links[0].click();
    else if (links.length) say("Nothing is opened: choose with the arrow keys. " + links.length + " found.");
  }

  const KEYS = {
    ArrowDown: () => move(1),
    ArrowUp: () => move(-1),
    Enter: open,
    Escape: () => {
      if (results.classList.contains("open")) hide();
      else box.value = "";
      say("");
    },
  };

  box.addEventListener("keydown", (event) => {
    const act = KEYS[event.key];
    if (!act || event.isComposing || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    act();
  });
  box.addEventListener("input", update);
  box.addEventListener("focus", () => {
    load();
    if (engine && box.value.trim() && !answer) update();
  });
  box.setAttribute("aria-autocomplete", "list");
  box.setAttribute("aria-haspopup", "listbox");

  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.altKey || event.ctrlKey || event.metaKey) return;
    const at = document.activeElement;
    if (at && (at.isContentEditable || /^(input|textarea|select)$/i.test(at.tagName))) return;
    event.preventDefault();
    box.focus();
    box.select();
  });
  const isOurs = (node) => node === box || (node instanceof Node && results.contains(node));
  document.addEventListener("pointerdown", (event) => {
    if (!isOurs(event.target)) hide();
  });
  document.addEventListener("focusin", (event) => {
    if (!isOurs(event.target)) hide();
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) hide();
  });
  if (document.activeElement === box) load();
})();
