/* The finder's index in memory: from a word to the names that hold it, and which words fit a typed
   one: exactly, as a beginning, or with a slip of the finger. Numbers never fit nearly.
   Words are numbered in the data, so that building this takes no spelling. */
(function () {
  "use strict";

  const ABOUT = -1;
  const LETTERS = "abcdefghijklmnopqrstuvwxyz";

  /* From a word to places: those of word `n` run from starts[n] to starts[n + 1] in places. */
  function inverted(lists, count) {
    const starts = new Int32Array(count + 1);
    const seen = new Int32Array(count).fill(-1);
    lists.forEach((words, place) => {
      for (const word of words)
        if (seen[word] !== place) {
          seen[word] = place;
          starts[word + 1] += 1;
        }
    });
    for (let word = 0; word < count; word += 1) starts[word + 1] += starts[word];
    const places = new Int32Array(starts[count]);
    const next = starts.slice();
    seen.fill(-1);
    lists.forEach((words, place) => {
      for (const word of words)
        if (seen[word] !== place) {
          seen[word] = place;
          places[next[word]++] = place;
        }
    });
    return { starts, places };
  }

  /* Every name of every record. In columns: its record, its place among the record's names (0 the
     title, ABOUT for further words), its words, how many of them count, whether it is misspelt. */
  function namesOf(data, idle) {
    const misspelling = data.nameKinds.indexOf("misspelling");
    const said = [];
    const record = [];
    const which = [];
    const misspelt = [];
    const add = (place, order, words, wrong) => {
      said.push(words);
      record.push(place);
      which.push(order);
      misspelt.push(wrong);
    };
    data.records.forEach((one, place) => {
      add(place, 0, one.said, false);
      one.names.forEach(([, kind, words], order) => add(place, order + 1, words, kind === misspelling));
      add(place, ABOUT, one.about, false);
    });
    const length = said.map((words) => words.reduce((sum, word) => (idle[word] ? sum : sum + 1), 0));
    return {
      count: said.length,
      said,
      record: Int32Array.from(record),
      which: Int16Array.from(which),
      length: Uint16Array.from(length),
      misspelt,
    };
  }

  function indexOf(data, spelling) {
    const { vocabulary, records } = data;
    const idleWords = new Set(data.spelling.idle);
    const isIdle = (text) => idleWords.has(text) || !/^[a-z\d]/.test(text);
    const idle = vocabulary.map(isIdle);
    const names = namesOf(data, idle);
    const numbers = new Map();
    const numberOf = vocabulary.map((text) => spelling.numberOf(text));
    numberOf.forEach((number, token) => {
      if (!number) return;
      if (!numbers.has(number.figure)) numbers.set(number.figure, []);
      numbers.get(number.figure).push({ token, unit: number.unit });
    });
    const named = inverted(names.said, vocabulary.length);
    return {
      names,
      named,
      told: inverted(data.prose.map(({ page, said }) => [...page, ...said]), vocabulary.length),
      numbers,
      isIdle,
      idle,
      inNames: (token) => named.starts[token + 1] > named.starts[token],
      tokens: new Map(vocabulary.map((text, token) => [text, token])),
      misspelt: new Set(data.misspelt),
      strengths: records.map((record) => strengthsOf(record.said, vocabulary, numberOf)),
      figures: figuresOf(records, numberOf),
      volumes: new Set(records.flatMap((record) => record.sizes.map(String))),
    };
  }

  /* The numbers of a title, each with the words it stands behind. */
  function strengthsOf(said, vocabulary, numberOf) {
    const found = new Map();
    let behind = [];
    for (const token of said) {
      if (numberOf[token]) {
        found.set(numberOf[token].figure, behind);
        behind = [];
      } else behind.push(vocabulary[token]);
    }
    return found;
  }

  /* All numbers of all titles but volumes: a bare number that is none of them is no strength. */
  function figuresOf(records, numberOf) {
    const said = new Set(records.flatMap((record) => (record.kind === "fluid" ? record.said : [])));
    const found = Array.from(said, (token) => numberOf[token]);
    return new Set(found.filter((number) => number && number.unit !== "ml").map((number) => number.figure));
  }

  /* Which words of the vocabulary fit a typed one: lists of { token, quality, whole, loose }. */
  function fitterOf(data, index) {
    const { vocabulary, weights, limits } = data;
    const isWord = vocabulary.map((text, token) => /^[a-z]+$/.test(text) && index.inNames(token));
    const masks = Int32Array.from(vocabulary, letterMask);
    const kept = new Map();
    const keptLoose = new Map();
    const best = (made) => made.sort((one, other) => other.quality - one.quality);

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

    /* A bare number fits one with a unit and the other way round; a volume only where it is meant. */
    function fitsNumber({ number, volume }) {
      const made = [];
      for (const { token, unit } of index.numbers.get(number.figure) || []) {
        const same = unit === number.unit;
        const near = unit === "ml" ? volume : !unit || !number.unit;
        const quality = same || unit === "%" || !unit ? 1 : weights.bare;
        if (same || near) made.push({ token, quality, whole: 1, loose: 0 });
      }
      return best(made);
    }

    function fitsWord(text) {
      const made = [];
      const exact = index.tokens.get(text);
      if (exact !== undefined) made.push({ token: exact, quality: 1, whole: 1, loose: 0 });
      if (text.length < 2 || !/^[a-z]/.test(text)) return made;
      for (let token = firstAt(text); token < vocabulary.length; token += 1) {
        const longer = vocabulary[token];
        if (!longer.startsWith(text)) break;
        const quality = weights.begun + ((1 - weights.begun) * text.length) / longer.length;
        const cutsNumber = /\d$/.test(text) && /^[\d.]/.test(longer.slice(text.length));
        if (longer !== text && !cutsNumber) made.push({ token, quality, whole: 0, loose: 0 });
      }
      return best(made);
    }

    function fits(word) {
      const key = word.text + (word.volume ? " volume" : "");
      if (!kept.has(key)) kept.set(key, word.number ? fitsNumber(word) : fitsWord(word.text));
      return kept.get(key);
    }

    function looseFits(text) {
      const edits = limits.loose.reduce((most, [letters, some]) => (text.length >= letters ? some : most), 0);
      const made = [];
      if (!edits || !/^[a-z]+$/.test(text)) return made;
      const mask = letterMask(text);
      for (let token = 0; token < vocabulary.length; token += 1) {
        const other = vocabulary[token];
        if (!isWord[token] || Math.abs(other.length - text.length) > edits || other === text) continue;
        // One edit takes away a letter at most and brings one in: others are too far to look at.
        if (bitsIn(mask ^ masks[token]) > edits + edits) continue;
        const away = distance(text, other, edits);
        if (away <= edits) made.push({ token, quality: weights.loose / away, whole: 0, loose: 1 });
      }
      return best(made);
    }

    function fitsLoosely(text) {
      if (!keptLoose.has(text)) keptLoose.set(text, looseFits(text));
      return keptLoose.get(text);
    }

    function isKnown(text) {
      const token = index.tokens.get(text);
      return token !== undefined && index.inNames(token);
    }

    return { fits, fitsLoosely, isKnown };
  }

  /* Which letters a word has, one bit each. */
  function letterMask(text) {
    let mask = 0;
    for (const letter of text) {
      const at = LETTERS.indexOf(letter);
      if (at >= 0) mask |= 1 << at;
    }
    return mask;
  }

  function bitsIn(mask) {
    let count = 0;
    for (let left = mask; left; left &= left - 1) count += 1;
    return count;
  }

  /* Edits between two words; two letters that changed places count once. Stops above `most`. */
  function distance(one, other, most) {
    let before = [];
    let last = Array.from({ length: other.length + 1 }, (_, at) => at);
    for (let row = 1; row <= one.length; row += 1) {
      const line = [row];
      let least = row;
      for (let at = 1; at <= other.length; at += 1) {
        const differs = one[row - 1] === other[at - 1] ? 0 : 1;
        let edits = Math.min(last[at] + 1, line[at - 1] + 1, last[at - 1] + differs);
        const swapped = row > 1 && at > 1 && one[row - 1] === other[at - 2] && one[row - 2] === other[at - 1];
        if (swapped) edits = Math.min(edits, before[at - 2] + 1);
        line.push(edits);
        least = Math.min(least, edits);
      }
      if (least > most) return most + 1;
      before = last;
      last = line;
    }
    return last[other.length];
  }

  window.isofolio = window.isofolio || {};
  Object.assign(window.isofolio, { finderIndex: indexOf, finderFitter: fitterOf });
})();
