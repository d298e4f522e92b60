/* Pages that hold the words of a question, best first. Every word is looked up once, and what it
   finds is added up in columns of numbers; only the pages that may be shown are weighed closely. */
(function () {
  "use strict";

  /* How well a page fits when it holds every word, best first: one of a fluid's names is the
     question; a fluid's title holds it; another page's title is it; one of a fluid's other names
     holds it; another page's title holds it; it stands among what a fluid is about; elsewhere. */
  const RANK = {};
  ["exact", "title", "page", "name", "part", "about", "other"].forEach((rank, order) => {
    RANK[rank] = order;
  });
  const NONE = -1;

  function finderOf(data, index, fit) {
    const { records, limits, weights, vocabulary } = data;
    const { names } = index;
    const nameBits = new Int32Array(names.count);
    const nameWhole = new Uint8Array(names.count);
    const nameSum = new Float32Array(names.count);
    const recordBits = new Int32Array(records.length);
    const recordLoose = new Int32Array(records.length);
    const recordSum = new Float32Array(records.length);
    const bestName = new Int32Array(records.length).fill(NONE);
    const touchedNames = new Int32Array(names.count);
    const touchedRecords = new Int32Array(records.length);
    let nameCount = 0;
    let recordCount = 0;
    const isFluid = (place) => records[place].kind === "fluid";
    const isRetired = (place) => (records[place].status === "retired" ? 1 : 0);

    const activeOf = (words) => {
      const active = words.filter((word) => !word.idle);
      return active.length ? active : words;
    };

    /* Pages that hold all words, or all that `needed` names; where none does and `partly` is set,
       those that hold the most. `allowed` keeps pages out; `loosely` lets slips in. */
    function pages(words, { allowed, loosely, partly, needed } = {}) {
      const used = activeOf(words);
      used.forEach((word, order) => lookUp(word, 1 << order, loosely));
      const masks = masksOf(used, needed);
      const places = candidates(masks, allowed, partly);
      chooseNames(masks);
      const ranked = places.map((place) => roughly(place, used, masks)).sort(byWorth);
      const hits = ranked.slice(0, limits.weighed).map((hit) => closely(hit, words, used));
      clear();
      return hits.sort(byWorth);
    }

    /* Containers and volumes belong to no name; they only need to be true of the page. */
    function masksOf(used, needed) {
      const bits = (wanted) => used.reduce((mask, word, order) => (wanted(word) ? mask | (1 << order) : mask), 0);
      const main = bits((word) => !word.side);
      const all = bits(() => true);
      const count = used.filter((word) => !main || !word.side).length;
      return { all, main: main || all, count, needed: needed ? bits(needed) : all };
    }

    /* ---- Adding up. ---- */

    function lookUp(word, bit, loosely) {
      const fitting = fit.fits(word);
      for (const one of fitting) spread(one, bit);
      if (word.number) return;
      const whole = fitting.filter((one) => one.whole);
      const slip = whole.length > 0 && whole.every(({ token }) => index.misspelt.has(token));
      if (slip || (loosely && !whole.length)) for (const one of fit.fitsLoosely(word.text)) spread(one, bit);
    }

    function spread({ token, quality, whole, loose }, bit) {
      const { starts, places } = index.named;
      for (let at = starts[token]; at < starts[token + 1]; at += 1) {
        const name = places[at];
        const record = names.record[name];
        if (!(nameBits[name] & bit)) {
          if (!nameBits[name]) touchedNames[nameCount++] = name;
          nameBits[name] |= bit;
          nameWhole[name] += whole;
          nameSum[name] += quality;
        }
        if (recordBits[record] & bit) continue;
        if (!recordBits[record]) touchedRecords[recordCount++] = record;
        recordBits[record] |= bit;
        recordSum[record] += names.which[name] < 0 ? quality * weights.about : quality;
        if (loose) recordLoose[record] |= bit;
      }
    }

    function candidates({ needed }, allowed, partly) {
      const touched = Array.from(touchedRecords.subarray(0, recordCount));
      const found = allowed ? touched.filter(allowed) : touched;
      const whole = found.filter((place) => (recordBits[place] & needed) === needed);
      if (whole.length || !partly) return whole;
      const counts = found.map((place) => bitsIn(recordBits[place]));
      const most = counts.reduce((high, count) => Math.max(high, count), 0);
      return found.filter((_, at) => counts[at] === most);
    }

    function bitsIn(mask) {
      let count = 0;
      for (let left = mask; left; left &= left - 1) count += 1;
      return count;
    }

    /* How much of a name and of the question fit each other. */
    function share(name, count) {
      const part = nameSum[name] / Math.max(count, names.length[name]);
      return names.misspelt[name] ? part * weights.misspelt : part;
    }

    /* For each page the name that fits best. */
    function chooseNames({ main, count }) {
      const worth = (name) => ((nameBits[name] & main) === main ? 1 : 0) + share(name, count);
      for (let at = 0; at < nameCount; at += 1) {
        const name = touchedNames[at];
        const record = names.record[name];
        const kept = bestName[record];
        if (names.which[name] >= 0 && (kept === NONE || worth(name) > worth(kept))) bestName[record] = name;
      }
    }

    function clear() {
      for (let at = 0; at < nameCount; at += 1) {
        const name = touchedNames[at];
        nameBits[name] = nameWhole[name] = nameSum[name] = 0;
      }
      for (let at = 0; at < recordCount; at += 1) {
        const place = touchedRecords[at];
        recordBits[place] = recordLoose[place] = recordSum[place] = 0;
        bestName[place] = NONE;
      }
      nameCount = recordCount = 0;
    }

    /* ---- Weighing. ---- */

    function rankOf(place, name, title, { main }) {
      const holds = (one) => one !== NONE && (nameBits[one] & main) === main;
      const whole = holds(name) && nameWhole[name] >= names.length[name];
      if (!isFluid(place)) return whole ? RANK.page : holds(name) ? RANK.part : RANK.other;
      if (whole) return RANK.exact;
      return holds(title) ? RANK.title : holds(name) ? RANK.name : RANK.about;
    }

    function roughly(place, used, masks) {
      const name = bestName[place];
      const title = name === NONE ? NONE : name - names.which[name];
      const rank = rankOf(place, name, title, masks);
      const shown = rank === RANK.title ? title : name;
      return {
        place,
        rank,
        shown,
        bits: recordBits[place],
        loose: recordLoose[place] !== 0,
        named: name !== NONE,
        name: shown === NONE ? 0 : names.which[shown],
        worth: name === NONE ? recordSum[place] / used.length / 2 : share(name, masks.count),
        missing: [],
        why: [],
      };
    }

    function closely(hit, words, used) {
      const wrong = isFluid(hit.place) ? misplaced(hit.place, used) : [];
      const missing = used.filter((word, order) => !(hit.bits & (1 << order)) || wrong.includes(word));
      hit.missing = missing.map((word) => word.text);
      hit.worth += weights.strength * strengths(hit.place, used) + weights.order * followed(hit.shown, used);
      if (hit.rank === RANK.exact && isLiteral(hit.place, words)) hit.worth += weights.literal;
      return hit;
    }

    const byWorth = (one, other) =>
      isRetired(one.place) - isRetired(other.place) ||
      one.rank - other.rank ||
      other.worth - one.worth ||
      one.place - other.place;

    /* Numbers that stand with another substance in the title than in the question: all the words
       beside them are in the title, and behind other numbers. In a pair ("0.45/5") none is. */
    function misplaced(place, used) {
      const title = index.strengths[place];
      if (title.size < 2) return [];
      const everywhere = Array.from(title.values()).flat();
      return used.filter((word, at) => {
        const behind = word.number ? title.get(word.number.figure) || [] : [];
        const paired = [used[at - 1], used[at + 1]].some((other) => other && other.number && !other.side);
        const beside = neighbours(used, at);
        if (!behind.length || paired || !beside.length) return false;
        return beside.every((text) => everywhere.includes(text) && !behind.includes(text));
      });
    }

    /* The words between a number and the numbers before and after it. */
    function neighbours(used, at) {
      const found = [];
      for (let before = at - 1; before >= 0 && !used[before].number; before -= 1) found.push(used[before].text);
      for (let after = at + 1; after < used.length && !used[after].number; after += 1) found.push(used[after].text);
      return found;
    }

    /* How many of the typed numbers are strengths of the title, and it has no others. */
    function strengths(place, used) {
      const asked = used.filter((word) => word.number && !word.side).map((word) => word.number.figure);
      const title = index.strengths[place];
      if (!asked.length || !title.size) return 0;
      return asked.filter((figure) => title.has(figure)).length / Math.max(asked.length, title.size);
    }

    /* How many words of the question follow each other in the name as well. */
    function followed(name, used) {
      if (name === NONE || used.length < 2) return 0;
      const said = names.said[name].filter((token) => !index.idle[token]).map((token) => vocabulary[token]);
      const pairs = used.filter((word, at) => {
        const before = at > 0 ? said.indexOf(used[at - 1].text) : -1;
        return before >= 0 && said[before + 1] === word.text;
      });
      return pairs.length / (used.length - 1);
    }

    /* Whether a name of the page is the question, word for word, small words too. */
    function isLiteral(place, words) {
      const typed = words.map((word) => word.text).join(" ");
      const text = (said) => said.map((token) => vocabulary[token]).join(" ");
      const { said, names: others } = records[place];
      return text(said) === typed || others.some((name) => text(name[2]) === typed);
    }

    /* Which of some pages hold all of some words, in the given order. */
    function holding(words, places) {
      const used = words.filter((word) => !word.idle);
      return places.filter((place) => {
        const { said, names: others, about } = records[place];
        const all = new Set([...said, ...others.flatMap((name) => name[2]), ...about]);
        return used.every((word) => fit.fits(word).some(({ token }) => all.has(token)));
      });
    }

    return { pages, holding, activeOf, isFluid, isRetired };
  }

  window.isofolio = window.isofolio || {};
  Object.assign(window.isofolio, { finderPages: finderOf, finderRank: RANK });
})();
