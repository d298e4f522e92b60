/* Spelling for the finder: what is typed becomes the tokens that the index is made of.
   The same steps in the same order as finder/spelling.py, with the tables that it sends. */
(function () {
  "use strict";

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
        const [token, used] = measured(parts[place], [parts[place + 1], parts[place + 2]]);
        if (token) {
          const spelt = word(token);
          made.push(...(same.get(spelt) || spelt).split(" "));
        }
        place += used;
      }
      return made;
    }

    const kinds = new Set(units.values());

    /* "0.9%" -> { figure: "0.9", unit: "%" }; null for a word. */
    function numberOf(token) {
      const found = token.match(/^(\d+(?:\.\d+)?)(.*)$/);
      if (!found || (found[2] && !kinds.has(found[2]))) return null;
      return { figure: found[1], unit: found[2] };
    }

    return { tokens, numberOf, same };
  }

  window.isofolio = window.isofolio || {};
  window.isofolio.finderSpelling = speller;
})();
