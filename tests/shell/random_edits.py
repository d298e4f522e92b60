"""Random edits of a small catalogue, as an editor makes them: most are sound, some break it."""

import os
import re
from collections.abc import Iterator

TERM = """id: tonicity
name: tonicity
text: "Text {number}: {{glucose-5 osmolarity}}."
cite: common practice
review: {{state: draft}}
"""


def edits(folder, chance) -> Iterator[str]:
    """Endless edits; after each one its kind. Every kind comes before any comes again."""
    number = 0
    while True:
        for kind in chance.sample(sorted(KINDS), len(KINDS)):
            number += 1
            for _ in KINDS[kind](folder, number, chance):
                yield kind


def _changed(path, pattern, new):
    """Write a new text over the first match of a pattern, which must be there."""
    text, count = re.subn(pattern, new, path.read_text(encoding="utf-8"), count=1)
    assert count == 1, f"{pattern} does not stand in {path.name}"
    path.write_text(text, encoding="utf-8")


def _any(folder, chance):
    return chance.choice(sorted(folder.glob("*.yml")))


def amount(folder, number, chance):
    _changed(
        folder / "fluids/glucose-10.yml", r"glucose, amount: \d+", f"glucose, amount: {number}"
    )
    yield


def unnoticed(folder, number, chance):
    """Another figure in as many bytes, and the time of the file set back: only the bytes tell."""
    path = folder / "fluids/glucose-5.yml"
    before = path.stat()
    figure = r"glucose, amount: \d\d\.\d"
    _changed(path, figure, f"glucose, amount: {number % 40 + 10:.1f}")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert path.stat().st_size == before.st_size
    yield


def synonym(folder, number, chance):
    line = f"also_known_as:\n  - {{name: ward word {number}, kind: ward word}}\n"
    _changed(folder / "fluids/sodium-chloride-0-9.yml", "also_known_as:\n", line)
    yield


def name(folder, number, chance):
    _changed(_any(folder / "fluids", chance), "(?m)^name: .*$", f"name: Renamed fluid {number}")
    yield


def limit(folder, number, chance):
    figure = f"    value: {901 + number} mOsm/L"
    _changed(folder / "limits.yml", r"(?m)^    value: 9\d\d mOsm/L", figure)
    yield


def substance(folder, number, chance):
    """Every gram of glucose becomes another number of millimoles, in every fluid that holds it."""
    formula = f"formula: C6H12O{6 + number % 3}"
    _changed(folder / "substances/glucose.yml", r"formula: C6H12O\d", formula)
    yield


def particle(folder, number, chance):
    _changed(
        folder / "particles.yml", "id: sodium, name: [^,]+", f"id: sodium, name: natrium {number}"
    )
    yield


def source(folder, number, chance):
    _changed(_any(folder / "sources", chance), "(?m)^title: .*$", f"title: Another title {number}")
    yield


def term(folder, number, chance):
    (folder / "glossary").mkdir(exist_ok=True)
    (folder / "glossary/tonicity.yml").write_text(TERM.format(number=number), encoding="utf-8")
    yield


def caution(folder, number, chance):
    """One is deleted, and at the next edit put back."""
    path = _any(folder / "cautions", chance)
    text = path.read_text(encoding="utf-8")
    path.unlink()
    yield
    path.write_text(text, encoding="utf-8")
    yield


def added(folder, number, chance):
    """A new fluid beside the others, then under another id, then gone."""
    text = (folder / "fluids/sodium-chloride-0-45.yml").read_text(encoding="utf-8")
    text = re.sub(r"(?m)^also_known_as:\n(?:  - .*\n)*", "", text)
    text = re.sub("(?m)^name: .*$", f"name: New fluid {number}", text)
    first, second = (folder / f"fluids/new-{word}-{number}.yml" for word in ("a", "b"))
    first.write_text(re.sub("(?m)^id: .*$", f"id: {first.stem}", text), encoding="utf-8")
    yield
    first.rename(second)
    yield
    _changed(second, "(?m)^id: .*$", f"id: {second.stem}")
    yield
    second.unlink()
    yield


def broken(folder, number, chance):
    """A fluid cannot be read, and at the next edit it is as it was."""
    path = _any(folder / "fluids", chance)
    text = path.read_text(encoding="utf-8")
    path.write_text(chance.choice(BREAKS)(text), encoding="utf-8")
    yield
    path.write_text(text, encoding="utf-8")
    yield


def list_broken(folder, number, chance):
    """The same with a list that everything hangs on."""
    path = folder / chance.choice(("limits.yml", "particles.yml", "substances/sodium-chloride.yml"))
    text = path.read_text(encoding="utf-8")
    path.write_text(text + "\n\tno: YAML\n", encoding="utf-8")
    yield
    path.write_text(text, encoding="utf-8")
    yield


BREAKS = (
    lambda text: text.replace("role: ready", "role: no such role"),
    lambda text: text.replace("source: ", "source: no-such-", 1),
    lambda text: f"{text}id: twice\n",
    lambda text: f"{text[: len(text) // 2]}\t[",
    lambda text: f"# {len(text)} characters were here\n",
)
KINDS = {
    kind.__name__: kind
    for kind in (
        *(amount, unnoticed, synonym, name, limit, substance, particle, source, term),
        *(caution, added, broken, list_broken),
    )
}
