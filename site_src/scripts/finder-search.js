/* The finder's search: a question in, a list of hits out, best first.
   A hit is a page (its place among the records) or a section. What fits only nearly or in part is
   marked, and comes after what fits; an ambiguous word brings all its candidates first. */
(function () {
  "use strict";

  /* How an ambiguous word is recognised, strictest first: as typed, without idle words, without
     containers, in any order, written as one. */
  const SAID = "said";
  const LOOKUPS = [SAID, "active", "main", "sorted", "joined"];

  function searcher(data) {
    const parts = window.isofolio;
    const RANK = parts.finderRank;
    const spelling = parts.finderSpelling(data.spelling);
    const index = parts.finderIndex(data, spelling);
    const fit = parts.finderFitter(data, index);
    const find = parts.finderPages(data, index, fit);
    const ask = parts.finderQuestions(data);
    const { records, limits, vocabulary } = data;
    const sideWords = new Set(data.questions.containers);
    const isSource = (place) => records[place].kind === "source";
    const isWhole = (hit) => !hit.missing.length;
    const isExact = (hit) => hit.rank === RANK.exact && isWhole(hit);

    /* ---- The words of a question. ---- */

    function wordsOf(text) {
      const texts = spelling.tokens(text.slice(0, limits.letters)).flatMap(pieces).slice(0, limits.words);
      const { beforeVolume, afterVolume } = data.questions;
      return texts.map((token, at) => {
        const number = spelling.numberOf(token);
        const bare = number && !number.unit ? number.figure : "";
        const placed = beforeVolume.includes(texts[at - 1]) || afterVolume.includes(texts[at + 1]);
        const volume = index.volumes.has(bare) && (placed || !index.figures.has(bare));
        const side = sideWords.has(token) || volume || Boolean(number && number.unit === "ml");
        return { text: token, number, idle: index.isIdle(token), volume, side, used: false };
      });
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
        const cut = [token.slice(0, at), token.slice(at)];
        if (cut.every((part) => /^[a-z]+$/.test(part) && known(part))) return cut.flatMap(respelt);
      }
      return [token];
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

    /* All candidates of a word, those given first. */
    const asking = (word, places, loose) => ({ word, loose, places: Array.from(new Set([...places, ...word.ids])) });

    /* All candidates; those in the container that was typed first. */
    function candidates(word, words, loose) {
      const sides = words.filter((one) => one.side);
      return asking(word, sides.length ? find.holding(sides, word.ids) : [], loose);
    }

    /* The question is an ambiguous word, % understood if need be. */
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
          const rest = [...words.slice(0, from), ...words.slice(from + length)];
          const places = find.holding(rest, word.ids);
          if (places.length > 1) return { word, places, loose: false };
          const named = hits.some((hit) => hit.place === places[0] && hit.rank < RANK.about);
          return places.length && !named ? asking(word, places, false) : null;
        }
      return null;
    }

    /* "pottasium": the ambiguous word that was meant. */
    function ambiguousIfSpelt(words, hits) {
      if (hits.some((hit) => isExact(hit) && !hit.loose)) return null;
      const meant = words.map((word) => {
        const token = index.tokens.get(word.text);
        const sound = fit.isKnown(word.text) && !index.misspelt.has(token);
        if (word.number || word.idle || sound) return word;
        const near = fit.fitsLoosely(word.text).find((one) => !index.misspelt.has(one.token));
        return near ? { ...word, text: vocabulary[near.token] } : word;
      });
      const word = meant.some((one, at) => one !== words[at]) && ambiguousWord(meant, LOOKUPS);
      return word ? candidates(word, words, true) : null;
    }

    /* ---- Sections. ---- */

    /* Sections whose text, with the title of their page, holds every word; none of them twice. */
    function sections(words) {
      const active = words.filter((word) => !word.idle);
      const found = new Map();
      active.forEach((word, order) => {
        const { starts, places } = index.told;
        for (const { token } of fit.fits(word))
          for (let at = starts[token]; at < starts[token + 1]; at += 1) {
            const known = found.get(places[at]) || { count: 0, own: 0 };
            if (known.count !== order) continue;
            const own = data.prose[places[at]].said.includes(token) ? 1 : 0;
            found.set(places[at], { count: known.count + 1, own: known.own + own });
          }
      });
      const texts = new Set();
      const isNew = ([place]) => !texts.has(data.prose[place].text) && texts.add(data.prose[place].text);
      return Array.from(found)
        .filter(([, { count, own }]) => count === active.length && own > 0)
        .sort((one, other) => other[1].own - one[1].own || one[0] - other[0])
        .filter(isNew)
        .slice(0, limits.prose)
        .map(([section]) => ({ section }));
    }

    /* ---- Questions about contents. ---- */

    const plainHit = (place, loose) => ({ place, loose, missing: [], name: 0, why: [] });

    /* Fluids that meet every clause, with the reasons; how many do not tell. */
    function meeting(clauses) {
      const why = new Map();
      let silent = 0;
      records.forEach((record, place) => {
        if (!find.isFluid(place) || find.isRetired(place)) return;
        const reasons = [];
        for (const clause of clauses) {
          const reason = ask.meets(clause, place);
          if (!reason) break;
          reasons.push(reason);
        }
        if (reasons.length === clauses.length) why.set(place, reasons);
        else if (clauses.some((clause) => ask.isSilent(clause, place))) silent += 1;
      });
      return { why, silent };
    }

    /* Those fluids, best first. The words left over must fit; the measured ones help to sort. */
    function contents(words, clauses) {
      const { why, silent } = meeting(clauses);
      const rest = words.filter((word) => !word.used && !word.idle);
      const sorting = words.filter((word) => !word.idle && (!word.used || word.of));
      const needed = (word) => !word.used;
      const allowed = (place) => why.has(place);
      const found = sorting.length ? find.pages(sorting, { allowed, loosely: true, needed }) : [];
      const fitting = new Map(found.map((hit, order) => [hit.place, { hit, order }]));
      const hits = Array.from(why, ([place, reasons]) => {
        const fit = fitting.get(place);
        return {
          ...plainHit(place, false),
          missing: rest.map((word) => word.text).filter((text) => !fit || fit.hit.missing.includes(text)),
          order: fit ? fit.order : records.length,
          printed: reasons.some((reason) => reason.printed) ? 1 : 0,
          why: reasons.map((reason) => reason.text),
        };
      });
      const whole = hits.filter(isWhole);
      const named = rest.length ? ambiguousWord(rest, LOOKUPS) : null;
      const first = (hit) => (named && named.ids.includes(hit.place) ? named.ids.indexOf(hit.place) : records.length);
      const byFit = (one, other) =>
        one.printed - other.printed ||
        first(one) - first(other) ||
        one.order - other.order ||
        one.place - other.place;
      return { hits: (whole.length ? whole : hits).sort(byFit), silent };
    }

    /* ---- The answer. ---- */

    function search(text) {
      const words = wordsOf(text);
      const strict = find.pages(words);
      const literal = ambiguousWord(words, [SAID]);
      if (literal) return byText(words, strict, candidates(literal, words, false));
      const clauses = ask.clausesOf(words);
      const answer = clauses.length ? contents(words, clauses) : { hits: [], silent: 0 };
      const meant = clauses.some((clause) => clause.strict) ? null : ambiguous(words, strict);
      const certain = clauses.some((clause) => clause.strict && (clause.test !== "=" || answer.hits.length));
      if (certain || (!meant && answer.hits.length)) {
        const exact = new Set(strict.filter(isExact).map((hit) => hit.place));
        const named = answer.hits.filter((hit) => exact.has(hit.place));
        return finished([...named, ...answer.hits], [], null, answer.silent);
      }
      return byText(words, strict, meant || narrowed(words, strict));
    }

    function byText(words, strict, asked) {
      let pages = strict.filter(isWhole);
      let some = [];
      const found = () => pages.some((hit) => !isSource(hit.place));
      const meant = asked || ambiguousIfSpelt(words, strict);
      if (!meant && !found()) {
        const loose = find.pages(words, { loosely: true, partly: true });
        pages = [...pages, ...loose.filter((hit) => isWhole(hit) && hit.loose)];
        if (!found()) some = partly(words, loose);
      }
      const first = meant ? meant.places.map((place) => plainHit(place, meant.loose)) : [];
      return finished([...first, ...pages], [...sections(words), ...some], meant, 0);
    }

    /* Pages that hold the most words, though not all: never on a number or a container alone. */
    function partly(words, hits) {
      const telling = find.activeOf(words).filter((word) => !word.number && !word.side).map((word) => word.text);
      const tells = (hit) => telling.some((text) => !hit.missing.includes(text));
      const found = hits.filter((hit) => !isWhole(hit) && hit.named && tells(hit) && !isSource(hit.place));
      const fewest = Math.min(...found.map((hit) => hit.missing.length));
      return found.filter((hit) => hit.missing.length === fewest);
    }

    /* One list without doubles: pages, then sections, then sources, then what fits in part. */
    function finished(pages, rest, meant, silent) {
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
      return { hits, ask: meant ? meant.word : null, silent, sure: isSure(main, meant) };
    }

    /* Whether Enter may open the first hit: the one exact name, or the only page that fits. */
    function isSure([first, second], meant) {
      if (!first || meant || first.loose || first.missing.length) return false;
      if (!second) return first.rank === undefined || first.rank < RANK.about;
      return (first.rank === RANK.exact || first.rank === RANK.page) && second.rank !== first.rank;
    }

    return { search, tokens: spelling.tokens };
  }

  window.isofolio = window.isofolio || {};
  window.isofolio.finderSearch = searcher;
})();
