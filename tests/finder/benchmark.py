"""How long a question takes: `python tests/finder/benchmark.py [fluids ...]` prints a table.

Synthetic fluids are the real ones over and over, each copy with a made-up word in its title and in
three names and with other strengths, so that common words have long lists and the vocabulary grows.
"""

import itertools
import json
import statistics
import sys
import tempfile
from dataclasses import replace
from pathlib import Path

import yaml

HERE = Path(__file__).parent
PROJECT = HERE.parents[1]
SYLLABLES = ("ba", "ce", "di", "fo", "gu", "hal", "jen", "kir", "lom", "mur", "nas", "pel", "rov")
COUNTS = (68, 5000)


def made_up_words():
    """Words that no fluid has, without end and always the same."""
    for length in itertools.count(2):
        for parts in itertools.product(SYLLABLES, repeat=length):
            yield "".join(parts)


def synthetic(cards, count):
    """So many cards of fluids, made from the real ones."""
    fluids = [card for card in cards if card.kind == "fluid"]
    made = list(fluids[:count])
    words = made_up_words()
    for number in range(len(made), count):
        card = fluids[number % len(fluids)]
        word = next(words)
        name = f"{card.id}-{number}"
        names = tuple(
            (f"{text} {word}" if place < 3 else text, kind)
            for place, (text, kind) in enumerate(card.names)
        )
        title = (*card.title, (word, f"{number % 97 / 10:g}\u202f%"))
        address = f"fluids/{name}.html"
        made.append(replace(card, id=name, address=address, title=title, names=names))
    return tuple(made)


def index(count):
    """The text of the index of so many fluids."""
    from isofolio.finder.cards import cards, notes
    from isofolio.finder.index import encoded, same_words
    from isofolio.finder.measured import measured
    from isofolio.handbook import open_handbook

    handbook = open_handbook(PROJECT / "catalogue").handbook
    real = cards(handbook)
    chosen = synthetic(real, count)
    others = tuple(card for card in real if card.kind != "fluid")
    words = handbook.catalogue.words
    prose = tuple(notes(handbook))
    return encoded((*chosen, *others), prose, measured(handbook), words, same_words(handbook))


def typed():
    """Every question of questions.yml, and how it looks after half of it is typed."""
    text = (HERE / "questions.yml").read_text(encoding="utf-8")
    questions = [str(question["q"]) for question in yaml.safe_load(text)["questions"]]
    return questions + [question[: len(question) // 2 + 1] for question in questions]


# Each round has a search of its own, which has kept nothing of the questions before; the best of a
# question's rounds counts, so that what else the machine does stays out of it.
MEASURE = """([questions, rounds]) => {
  const best = questions.map(() => Infinity);
  for (let round = 0; round < rounds; round += 1) {
    const { search } = window.isofolio.finderSearch(window.isofolio.finderData);
    questions.forEach((question, at) => {
      const before = performance.now();
      search(question);
      best[at] = Math.min(best[at], performance.now() - before);
    });
  }
  return best.map((time, at) => [time, questions[at]]);
}"""
ROUNDS = 5
READY = "() => window.isofolio && window.isofolio.finder"


def measured_in(browser, count):
    """Milliseconds: to be ready after the first focus, and of each question."""
    from conftest import write_site

    text = index(count)
    with tempfile.TemporaryDirectory() as folder:
        page = browser.new_page()
        page.goto(write_site(Path(folder), text).as_uri())
        before = page.evaluate("() => performance.now()")
        page.focus("#finder-box")
        page.wait_for_function(READY)
        ready = page.evaluate("() => performance.now()") - before
        times = page.evaluate(MEASURE, [typed(), ROUNDS])
        page.close()
    return {
        "fluids": count,
        "kilobytes": len(text.encode()) // 1000,
        "ready": ready,
        "times": times,
    }


def report(found):
    """Two lines of the table."""
    times = sorted(found["times"])
    middle = statistics.median(time for time, _ in times)
    late = times[int(len(times) * 0.99)][0]
    worst, question = times[-1]
    return (
        f"{found['fluids']} fluids, {found['kilobytes']} kB, ready in {found['ready']:.0f} ms\n"
        f"  {len(times)} questions: median {middle:.1f} ms, 99 % under {late:.1f} ms, "
        f"worst {worst:.1f} ms ({json.dumps(question)})"
    )


def main(counts=COUNTS):
    """Measure and print."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as running:
        browser = running.chromium.launch(
            executable_path="/usr/bin/chromium", args=["--no-sandbox"]
        )
        for count in counts:
            sys.stdout.write(report(measured_in(browser, count)) + "\n")
        browser.close()


if __name__ == "__main__":
    sys.path.insert(0, str(HERE))
    main([int(argument) for argument in sys.argv[1:]] or COUNTS)
