/* The finder's index in memory: from a word to the names that hold it, and which words fit a typed
   one: exactly, as a beginning, or with a slip of the finger. Numbers never fit nearly.
   Words are numbered in the data, so that building this takes no spelling. */
(function () {
  "use strict";

  const ABOUT = -1;

  /* Lists of numbers in one array: list `n` runs from starts[n] to starts[n + 1] in values. */
  function packed(pairs, count) {
    const starts = new Int32Array(count + 1);
    for (const [key] of pairs) starts[key + 1] += 1;
    for (let key = 0; key < count; key += 1) starts[key + 1] += starts[key];
    const values = new Int32Array(pairs.length);
    const next = starts.slice();
    for (const [key, value] of pairs) values[next[key]++] = value;
    return { starts, values };
  }

  /* Every name of every record: its record, its place among the record's names (0 the title,
     ABOUT for further words), its words, and how many of them count. */
  function namesOf(data, counts) {
    const names = [];
    const add = (record, which, said, misspelt) => {
      const length = said.reduce((sum, token) => sum + counts[token], 0);
      names.push({ record, which, said, length, misspelt });
    };
    const misspelling = data.nameKinds.indexOf("misspelling");
    data.records.forEach((record, place) => {
      add(place, 0, record.said, false);
      record.names.forEach(([, kind, said], order) => add(place, order + 1, said, kind === misspelling));
      add(place, ABOUT, record.about, false);
    });
    return names;
  }

  function indexOf(data, spelling) {
    const { vocabulary, records } = data;
    const idle = new Set(data.spelling.idle);
    const isIdle = (text) => idle.has(text) || !/^[a-z\d]/.test(text);
    const names = namesOf(data, vocabulary.map((text) => (isIdle(text) ? 0 : 1)));
    const pairs = names.flatMap(({ said }, name) => Array.from(new Set(said), (token) => [token, name]));
    const told = data.prose.flatMap(({ page, said }, place) =>
      Array.from(new Set([...page, ...said]), (token) => [token, place]),
    );
    const numbers = new Map();
    vocabulary.forEach((text, place) => {
      const number = spelling.numberOf(text);
      if (number) numbers.set(number.figure, [...(numbers.get(number.figure) || []), { place, unit: number.unit }]);
    });
    const named = packed(pairs, vocabulary.length);
    return {
      names,
      named,
      told: packed(told, vocabulary.length),
      numbers,
      isIdle,
      inNames: (place) => named.starts[place + 1] > named.starts[place],
      places: new Map(vocabulary.map((text, place) => [text, place])),
      misspelt: new Set(data.misspelt),
      strengths: records.map((record) => strengthsOf(record.said, vocabulary, spelling)),
      figures: figuresOf(records, vocabulary, spelling),
      volumes: new Set(records.flatMap((record) => record.sizes.map(String))),
    };
  }

  /* The numbers of a title, each with the words it stands behind. */
  function strengthsOf(said, vocabulary, spelling) {
    const found = new Map();
    let behind = [];
    for (const token of said) {
      const number = spelling.numberOf(vocabulary[token]);
      if (number) {
        found.set(number.figure, new Set(behind));
        behind = [];
      } else behind.push(vocabulary[token]);
    }
    return found;
  }

  /* All numbers of all titles but volumes: a bare number that is none of them is no strength. */
  function figuresOf(records, vocabulary, spelling) {
    const said = new Set(records.flatMap((record) => (record.kind === "fluid" ? record.said : [])));
    const numbers = Array.from(said, (token) => spelling.numberOf(vocabulary[token]));
    return new Set(numbers.filter((number) => number && number.unit !== "ml").map((number) => number.figure));
  }

  /* Which words of the vocabulary fit a typed one: lists of { token, quality, whole, loose }. */
  function fitterOf(data, index) {
    const { vocabulary, weights, limits } = data;
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
      for (const { place, unit } of index.numbers.get(number.figure) || []) {
        const same = unit === number.unit;
        const near = unit === "ml" ? volume : !unit || !number.unit;
        const quality = same || unit === "%" || !unit ? 1 : weights.bare;
        if (same || near) made.push({ token: place, quality, whole: 1, loose: 0 });
      }
      return best(made);
    }

    function fitsWord(text) {
      const made = [];
      const exact = index.places.get(text);
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
      vocabulary.forEach((other, token) => {
        if (Math.abs(other.length - text.length) > edits || other === text) return;
        if (!index.inNames(token) || !/^[a-z]+$/.test(other)) return;
        const away = distance(text, other, edits);
        if (away <= edits) made.push({ token, quality: weights.loose / away, whole: 0, loose: 1 });
      });
      return best(made);
    }

    function fitsLoosely(text) {
      if (!keptLoose.has(text)) keptLoose.set(text, looseFits(text));
      return keptLoose.get(text);
    }

    function isKnown(text) {
      const place = index.places.get(text);
      return place !== undefined && index.inNames(place);
    }

    return { fits, fitsLoosely, isKnown };
  }

  /* Edits between two words; two letters that changed places count once. Stops above `most`. */
  function distance(one, other, most) {
    let before = [];
    let last = Array.from({ length: other.length + 1 }, (_, at) => at);
    for (let row = 1; row <= one.length; row += 1) {
      const line = [row];
      for (let at = 1; at <= other.length; at += 1) {
        const differs = one[row - 1] === other[at - 1] ? 0 : 1;
        let edits = Math.min(last[at] + 1, line[at - 1] + 1, last[at - 1] + differs);
        const swapped = row > 1 && at > 1 && one[row - 1] === other[at - 2] && one[row - 2] === other[at - 1];
        if (swapped) edits = Math.min(edits, before[at - 2] + 1);
        line.push(edits);
      }
      if (Math.min(...line) > most) return most + 1;
      before = last;
      last = line;
    }
    return last[other.length];
  }

  window.isofolio = window.isofolio || {};
  Object.assign(window.isofolio, { finderIndex: indexOf, finderFitter: fitterOf });
})();
