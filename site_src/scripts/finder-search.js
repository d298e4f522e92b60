/* The finder's search: a question in, a list of hits out, best first.
   A hit is a page (its place among the records) or a section. What fits only nearly or in part is
   marked, and comes after what fits; an ambiguous word brings all its candidates first. */
(function () {
  "use strict";

  /* How well a page fits when it holds every word, best first: one of a fluid's names is the
     question; the fluid's title holds it; another page's title is it; one of the fluid's other
     names holds it; another page's title holds it; it stands among what the page is about. */
  const RANK = { exact: 0, title: 1, page: 2 };
  RANK.name = RANK.page + 1;
  RANK.part = RANK.name + 1;
  RANK.about = RANK.part + 1;
  RANK.other = RANK.about + 1;

  /* How an ambiguous word is recognised, strictest first. */
  const SAID = "said";
  const LOOKUPS = [SAID, "active", "main", "sorted", "joined"];

  function searcher(data) {
    const { finderSpelling, finderIndex, finderFitter, finderQuestions } = window.isofolio;
    const spelling = finderSpelling(data.spelling);
    const index = finderIndex(data, spelling);
    const fit = finderFitter(data, index);
    const ask = finderQuestions(data);
    const { records, limits, weights, vocabulary } = data;
    const { names } = index;
    const sideWords = new Set(data.questions.containers);
    const scores = {
      nameBits: new Int32Array(names.length),
      nameWhole: new Uint8Array(names.length),
      nameSum: new Float32Array(names.length),
      recordBits: new Int32Array(records.length),
      recordLoose: new Int32Array(records.length),
      recordSum: new Float32Array(records.length),
    };
    const isFluid = (place) => records[place].kind === "fluid";
    const isSource = (place) => records[place].kind === "source";
    const isRetired = (place) => (records[place].status === "retired" ? 1 : 0);

    /* ---- The words of a question. ---- */

    function wordsOf(text) {
      const words = spelling.tokens(text.slice(0, limits.letters)).flatMap(pieces).map((token) => ({
        text: token,
        number: spelling.numberOf(token),
        idle: index.isIdle(token),
        used: false,
      }));
      const { beforeVolume, afterVolume } = data.questions;
      words.forEach((word, at) => {
        const before = at > 0 && beforeVolume.includes(words[at - 1].text);
        const after = at + 1 < words.length && afterVolume.includes(words[at + 1].text);
        const bare = word.number && !word.number.unit ? word.number.figure : "";
        const strength = index.figures.has(bare);
        word.volume = index.volumes.has(bare) && (before || after || !strength);
        word.side = sideWords.has(word.text) || word.volume || Boolean(word.number && word.number.unit === "ml");
      });
      return words.slice(0, limits.words);
    }

    /* An unknown word is cut where that makes known ones: "20k", "dextran70", "normalsaline". */
    function pieces(token) {
      if (spelling.numberOf(token) || fit.fits({ text: token }).length) return [token];
      const known = (part) => fit.isKnown(part) || spelling.same.has(part);
      const respelt = (part) => (spelling.same.get(part) || part).split(" ");
      const mixed = token.match(/^(\d+(?:\.\d+)?)([a-z]+)$/) || token.match(/^([a-z]+)(\d+)$/);
      if (mixed && (known(mixed[1]) || known(mixed[2]))) return [mixed[1], mixed[2]].flatMap(respelt);
      const least = limits.cut;
      for (let at = token.length - least; at >= least; at -= 1) {
        const parts = [token.slice(0, at), token.slice(at)];
        if (parts.every((part) => /^[a-z]+$/.test(part) && known(part))) return parts.flatMap(respelt);
      }
      return [token];
    }

    const activeOf = (words) => {
      const active = words.filter((word) => !word.idle);
      return active.length ? active : words;
    };

    /* ---- Pages that hold words. ---- */

    /* Every page that holds some of the words, and is allowed, best first. */
    function textHits(words, allowed, loosely) {
      const used = activeOf(words);
      const touched = { names: [], records: [] };
      used.forEach((word, order) => spreadWord(touched, word, 1 << order, loosely));
      const masks = masksOf(used);
      const hits = [];
      for (const [place, name] of bestNames(touched, masks)) {
        if (!allowed || allowed(place)) hits.push(hitOf(place, name, words, used, masks));
      }
      for (const name of touched.names) scores.nameBits[name] = scores.nameWhole[name] = scores.nameSum[name] = 0;
      for (const place of touched.records)
        scores.recordBits[place] = scores.recordLoose[place] = scores.recordSum[place] = 0;
      return hits.sort(byWorth);
    }

    /* Containers and volumes belong to no name; they only need to be true of the page. */
    function masksOf(used) {
      const bits = (wanted) => used.reduce((mask, word, order) => (wanted(word) ? mask | (1 << order) : mask), 0);
      const all = bits(() => true);
      const main = bits((word) => !word.side);
      return { all, main: main || all, count: used.filter((word) => !main || !word.side).length };
    }

    function spreadWord(touched, word, bit, loosely) {
      const fitting = fit.fits(word);
      for (const one of fitting) spread(touched, one, bit);
      if (word.number) return;
      const whole = fitting.filter((one) => one.whole);
      const slip = whole.length > 0 && whole.every(({ token }) => index.misspelt.has(token));
      if (slip || (loosely && !whole.length))
        for (const one of fit.fitsLoosely(word.text)) spread(touched, one, bit);
    }

    function spread(touched, { token, quality, whole, loose }, bit) {
      const { starts, values } = index.named;
      const { nameBits, nameWhole, nameSum, recordBits, recordLoose, recordSum } = scores;
      for (let at = starts[token]; at < starts[token + 1]; at += 1) {
        const name = values[at];
        const { record, which } = names[name];
        if (!(nameBits[name] & bit)) {
          if (!nameBits[name]) touched.names.push(name);
          nameBits[name] |= bit;
          nameWhole[name] += whole;
          nameSum[name] += quality;
        }
        if (recordBits[record] & bit) continue;
        if (!recordBits[record]) touched.records.push(record);
        recordBits[record] |= bit;
        recordSum[record] += which < 0 ? quality * weights.about : quality;
        if (loose) recordLoose[record] |= bit;
      }
    }

    /* How much of a name and of the question fit each other. */
    function share(name, count) {
      const part = scores.nameSum[name] / Math.max(count, names[name].length);
      return names[name].misspelt ? part * weights.misspelt : part;
    }

    /* For each page the name that fits best; undefined where none does. */
    function bestNames(touched, { main, count }) {
      const best = new Map(touched.records.map((place) => [place, undefined]));
      const worth = (name) => ((scores.nameBits[name] & main) === main ? 1 : 0) + share(name, count);
      for (const name of touched.names) {
        const { record, which } = names[name];
        const kept = best.get(record);
        if (which >= 0 && (kept === undefined || worth(name) > worth(kept))) best.set(record, name);
      }
      return best;
    }

    function hitOf(place, name, words, used, masks) {
      const bits = scores.recordBits[place];
      const wrong = isFluid(place) ? misplaced(place, used) : [];
      const missing = used.filter((word, order) => !(bits & (1 << order)) || wrong.includes(word));
      const title = name === undefined ? undefined : name - names[name].which;
      const rank = rankOf(place, name, title, masks);
      const shown = rank === RANK.title ? title : name;
      const fitting = name === undefined ? scores.recordSum[place] / used.length / 2 : share(name, masks.count);
      return {
        place,
        rank,
        missing: missing.map((word) => word.text),
        loose: scores.recordLoose[place] !== 0,
        named: name !== undefined,
        name: shown === undefined ? 0 : names[shown].which,
        worth:
          fitting +
          weights.strength * strengths(place, used) +
          weights.order * followed(shown, used) +
          (rank === RANK.exact && isLiteral(place, words) ? weights.literal : 0),
        why: [],
      };
    }

    function rankOf(place, name, title, { main }) {
      const holds = (one) => one !== undefined && (scores.nameBits[one] & main) === main;
      const whole = holds(name) && scores.nameWhole[name] >= names[name].length;
      if (isFluid(place)) {
        if (whole) return RANK.exact;
        return holds(title) ? RANK.title : holds(name) ? RANK.name : RANK.about;
      }
      return whole ? RANK.page : holds(name) ? RANK.part : RANK.other;
    }

    const isExact = (hit) => hit.rank === RANK.exact && !hit.missing.length;

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
      const everywhere = new Set(Array.from(title.values()).flatMap((behind) => Array.from(behind)));
      return used.filter((word, at) => {
        const behind = word.number && title.get(word.number.figure);
        const paired = [used[at - 1], used[at + 1]].some((other) => other && other.number && !other.side);
        const beside = neighbours(used, at);
        if (!behind || !behind.size || paired || !beside.length) return false;
        return beside.every((text) => everywhere.has(text) && !behind.has(text));
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
      if (name === undefined || used.length < 2) return 0;
      const said = names[name].said.map((token) => vocabulary[token]).filter((text) => !index.isIdle(text));
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

    /* ---- Ambiguous words. ---- */

    function keysOf(words) {
      const active = words.filter((word) => !word.idle);
      const texts = active.map((word) => word.text);
      return {
        said: words.map((word) => word.text).join(" "),
        active: texts.join(" "),
        main: active.filter((word) => !word.side).map((word) => word.text).join(" "),
        sorted: active.some((word) => word.number) ? "" : texts.slice().sort().join(" "),
        joined: texts.join(""),
      };
    }

    const ambiguousWords = new Map(LOOKUPS.map((lookup) => [lookup, new Map()]));
    for (const lookup of LOOKUPS)
      for (const word of data.words) {
        const words = word.said.split(" ").map((text) => ({
          text,
          number: spelling.numberOf(text),
          idle: index.isIdle(text),
        }));
        const key = keysOf(words)[lookup];
        const known = ambiguousWords.get(lookup);
        if (key && !known.has(key)) known.set(key, word);
      }

    function ambiguousWord(words, lookups) {
      const keys = keysOf(words);
      for (const lookup of lookups) {
        const found = keys[lookup] && ambiguousWords.get(lookup).get(keys[lookup]);
        if (found) return found;
      }
      return null;
    }

    /* All candidates of a word; those that hold the rest of the question first. */
    function candidates(word, words, loose) {
      const rest = words.filter((one) => one.side);
      const places = rest.length ? holding(rest, word.ids) : [];
      return { word, loose, places: Array.from(new Set([...places, ...word.ids])) };
    }

    /* The candidates that hold all of some words, in the order of the word. */
    function holding(words, ids) {
      const found = textHits(words, (place) => ids.includes(place), false);
      const places = found.filter((hit) => !hit.missing.length).map((hit) => hit.place);
      return ids.filter((place) => places.includes(place));
    }

    /* The question is an ambiguous word: as typed, without idle words, or with % understood. */
    function ambiguous(words, hits) {
      const word = ambiguousWord(words, LOOKUPS);
      if (word) return candidates(word, words, false);
      if (hits.some(isExact)) return null;
      const percent = words.map((one) =>
        one.number && !one.number.unit ? { ...one, text: one.text + "%" } : one,
      );
      const understood = ambiguousWord(percent, LOOKUPS);
      return understood ? candidates(understood, words, false) : null;
    }

    /* A part of the question is an ambiguous word, and the rest leaves more than one candidate, or
       one whose names do not hold it. */
    function narrowed(words, hits) {
      if (hits.some(isExact)) return null;
      for (let length = words.length - 1; length >= 1; length -= 1)
        for (let from = 0; from + length <= words.length; from += 1) {
          const part = words.slice(from, from + length);
          const word = part.every((one) => one.idle) ? null : ambiguousWord(part, [SAID]);
          if (!word) continue;
          const places = holding([...words.slice(0, from), ...words.slice(from + length)], word.ids);
          const named = hits.some((hit) => hit.place === places[0] && hit.rank < RANK.about);
          if (!places.length || (places.length === 1 && named)) return null;
          const others = places.length === 1 ? word.ids : [];
          return { word, places: Array.from(new Set([...places, ...others])), loose: false };
        }
      return null;
    }

    /* "pottasium": the ambiguous word that was meant. */
    function ambiguousIfSpelt(words, hits) {
      if (hits.some((hit) => isExact(hit) && !hit.loose)) return null;
      const meant = words.map((word) => {
        const place = index.places.get(word.text);
        const sound = place !== undefined && index.inNames(place) && !index.misspelt.has(place);
        if (word.number || word.idle || sound) return word;
        const near = fit.fitsLoosely(word.text).find(({ token }) => !index.misspelt.has(token));
        return near ? { ...word, text: vocabulary[near.token] } : word;
      });
      const word = meant.some((one, at) => one !== words[at]) && ambiguousWord(meant, LOOKUPS);
      return word ? candidates(word, words, true) : null;
    }

    /* ---- Sections, questions about contents, and the whole answer. ---- */

    /* Sections whose text, with the title of their page, holds every word. */
    function sections(words) {
      const active = words.filter((word) => !word.idle);
      const counts = new Map();
      active.forEach((word, order) => {
        const seen = new Set();
        const { starts, values } = index.told;
        for (const { token } of fit.fits(word))
          for (let at = starts[token]; at < starts[token + 1]; at += 1) {
            const place = values[at];
            const { count, own } = counts.get(place) || { count: 0, own: 0 };
            if (seen.has(place) || count !== order) continue;
            seen.add(place);
            counts.set(place, { count: count + 1, own: own + (data.prose[place].said.includes(token) ? 1 : 0) });
          }
      });
      const texts = new Set();
      const isNew = ([place]) => !texts.has(data.prose[place].text) && texts.add(data.prose[place].text);
      return Array.from(counts)
        .filter(([, { count, own }]) => active.length && count === active.length && own > 0)
        .sort((one, other) => other[1].own - one[1].own || one[0] - other[0])
        .filter(isNew)
        .slice(0, limits.prose)
        .map(([section]) => ({ section }));
    }

    const plainHit = (place, loose) => ({ place, loose, missing: [], name: 0, why: [] });

    /* Fluids that hold what is asked for. The words left over must fit too; all words sort. */
    function contents(words, clauses) {
      const why = new Map();
      let silent = 0;
      records.forEach((record, place) => {
        if (!isFluid(place) || isRetired(place)) return;
        const reasons = clauses.map((clause) => ask.meets(clause, place));
        if (reasons.every(Boolean)) why.set(place, reasons);
        else if (clauses.some((clause) => ask.isSilent(clause, place))) silent += 1;
      });
      const rest = words.filter((word) => !word.used && !word.idle);
      const sorting = words.filter((word) => !word.idle && (!word.used || word.of));
      const found = sorting.length ? textHits(sorting, (place) => why.has(place), true) : [];
      const worths = new Map(found.map((hit, order) => [hit.place, { hit, order }]));
      const lacking = (place) => {
        const hit = worths.get(place);
        return rest.map((word) => word.text).filter((text) => !hit || hit.hit.missing.includes(text));
      };
      const hits = Array.from(why, ([place, reasons]) => ({
        ...plainHit(place, false),
        missing: lacking(place),
        why: reasons.map((reason) => reason.text),
        printed: reasons.some((reason) => reason.printed) ? 1 : 0,
      }));
      const whole = hits.filter((hit) => !hit.missing.length);
      const named = rest.length ? ambiguousWord(rest, LOOKUPS) : null;
      const first = (place) => (named && named.ids.includes(place) ? named.ids.indexOf(place) : records.length);
      const order = (place) => (worths.has(place) ? worths.get(place).order : records.length);
      const byFit = (one, other) =>
        one.printed - other.printed ||
        first(one.place) - first(other.place) ||
        order(one.place) - order(other.place) ||
        one.place - other.place;
      return { hits: (whole.length ? whole : hits).sort(byFit), silent };
    }

    function search(text) {
      const words = wordsOf(text);
      const strict = textHits(words, null, false);
      const literal = ambiguousWord(words, [SAID]);
      if (literal) return byText(words, strict, candidates(literal, words, false));
      const clauses = ask.clausesOf(words);
      const answer = clauses.length ? contents(words, clauses) : { hits: [], silent: 0 };
      const asking = clauses.some((clause) => clause.strict) ? null : ambiguous(words, strict);
      const certain = clauses.some((clause) => clause.strict && (clause.test !== "=" || answer.hits.length));
      if (certain || (!asking && answer.hits.length)) {
        const exact = new Set(strict.filter(isExact).map((hit) => hit.place));
        const named = answer.hits.filter((hit) => exact.has(hit.place));
        return finished([...named, ...answer.hits], [], null, answer.silent);
      }
      return byText(words, strict, asking || narrowed(words, strict));
    }

    function byText(words, strict, asked) {
      let pages = strict.filter((hit) => !hit.missing.length);
      let some = [];
      const found = () => pages.some((hit) => !isSource(hit.place));
      let asking = asked || ambiguousIfSpelt(words, strict);
      if (!asking && !found()) {
        const loose = textHits(words, null, true);
        pages = [...pages, ...loose.filter((hit) => !hit.missing.length && hit.loose)];
        if (!found()) some = partly(words, loose);
      }
      const first = asking ? asking.places.map((place) => plainHit(place, asking.loose)) : [];
      return finished([...first, ...pages], [...sections(words), ...some], asking, 0);
    }

    /* Pages that hold the most words, though not all: never on a number or a container alone. */
    function partly(words, hits) {
      const telling = activeOf(words).filter((word) => !word.number && !word.side).map((word) => word.text);
      const tells = (hit) => telling.some((text) => !hit.missing.includes(text));
      const found = hits.filter((hit) => hit.missing.length && hit.named && tells(hit) && !isSource(hit.place));
      const fewest = Math.min(...found.map((hit) => hit.missing.length));
      return found.filter((hit) => hit.missing.length === fewest);
    }

    /* One list without doubles: pages, then sections, then sources, then what fits in part. */
    function finished(pages, rest, asking, silent) {
      const seen = new Set();
      const isSection = (hit) => hit.section !== undefined;
      const isNew = (hit) => !seen.has(hit.place) && seen.add(hit.place);
      const all = pages.filter(isNew);
      const main = all.filter((hit) => !isSource(hit.place));
      const hits = [
        ...main,
        ...rest.filter(isSection),
        ...all.filter((hit) => isSource(hit.place)).slice(0, limits.others),
        ...rest.filter((hit) => !isSection(hit)).filter(isNew),
      ];
      return { hits, ask: asking ? asking.word : null, silent, sure: isSure(main, asking) };
    }

    /* Whether Enter may open the first hit: the one exact name, or the only page that fits. */
    function isSure([first, second], asking) {
      if (!first || asking || first.loose || first.missing.length) return false;
      if (!second) return first.rank === undefined || first.rank < RANK.about;
      return (first.rank === RANK.exact || first.rank === RANK.page) && second.rank !== first.rank;
    }

    return { search, tokens: spelling.tokens };
  }

  window.isofolio = window.isofolio || {};
  window.isofolio.finderSearch = searcher;
})();
