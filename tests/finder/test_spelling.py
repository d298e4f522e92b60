"""What is typed and what is printed become the same tokens, in Python and in the browser."""

import random
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from isofolio.finder.index import same_words
from isofolio.finder.spelling import tables, tokens, words_of

QUESTIONS = Path(__file__).parent / "questions.yml"
NAMES = {"K⁺": "potassium", "HCO₃⁻": "bicarbonate", "KCl": "potassium chloride"}
SAME = words_of(NAMES)


# Common practice, no source: how labels, keyboards and wards write the same thing.
@pytest.mark.parametrize(
    "written",
    [
        ("0.9%", "0.9 %", "0,9 %", ".9%", "0.90\u202f%", "point nine percent", "0.9 per cent"),
        ("K", "k+", "K⁺", "potassium"),
        ("HCO3", "HCO₃⁻", "HCO3-", "bicarbonate"),
        ("KCl", "kcl", "potassium chloride"),
        ("sulphate", "sulfate", "Sulfates"),
        ("oedema", "edema", "œdema"),
        ("acidaemia", "acidemia"),
        ("glucose-monohydrate", "glucose monohydrate"),
        ("Hartmann's", "Hartmann’s", "hartmanns"),
        ("500 ml", "500mL", "500 mls", "0.5 L", "half a litre", "500 cc"),
        ("20 mmol/L", "20mmol per litre", "20 mmol per l", "20 mmol in a liter"),
        ("½ NS", "1/2 NS", "half NS", "1/2NS"),
        ("25 µ", "25 μ"),
        ("Natriumlösung", "natriumlosung"),
        ("twenty three", "23"),
        ("5%", "five percent", "5.0 %", "05%"),
        ("1,000 mL", "1000 ml", "1 litre"),
        ("kcl0.3%", "KCl 0.3 %"),
        ("glucose5%", "glucose 5 %"),
    ],
)
def test_spellings_of_one_thing(written):
    assert {tuple(tokens(text, SAME)) for text in written} == {tuple(tokens(written[0], SAME))}
    assert tokens(written[0], SAME)


@pytest.mark.parametrize(
    ("one", "other"),
    [("0.9%", "9%"), ("5%", "5 mmol"), ("20 mmol", "20 mEq"), ("20 mg", "mg"), ("0.45", "0.4 5")],
)
def test_what_must_stay_apart(one, other):
    assert tokens(one, SAME) != tokens(other, SAME)


@given(st.text(max_size=60))
def test_any_text_becomes_plain_tokens(text):
    allowed = set("abcdefghijklmnopqrstuvwxyz0123456789.%/<>=")
    for token in tokens(text, SAME):
        assert token
        assert set(token) <= allowed


def test_browser_spells_as_python_does(search, handbook):
    """Every name of the catalogue, every question, and signs that only keyboards make."""
    texts = [str(q["q"]) for q in yaml.safe_load(QUESTIONS.read_text("utf-8"))["questions"]]
    for record in (*handbook.fluids, *handbook.catalogue.substances.values()):
        texts.append(record.name)
    texts += [other.name for fluid in handbook.fluids for other in fluid.also_known_as]
    texts += [word.word for word in handbook.catalogue.words]
    texts += [source.title for source in handbook.catalogue.sources.values()]
    texts += [
        "d51/2ns",
        "1/3 n",
        "so42-",
        "Ca²⁺",
        "≤ 5",
        "k=5",
        "+++",
        "%%",
        "/ / l",
        "İK",
        "ẞ",
        "ﬁ",
    ]
    texts += ["twenty", "twenty one", "point", "point five six", "half l", "a litre", "in 1 L"]
    draw = random.Random(1)
    pieces = [
        "k",
        "Na",
        "0",
        ".",
        "9",
        "5",
        "%",
        "/",
        "+",
        "-",
        "½",
        "²⁺",
        ",",
        " ",
        "mL",
        "l",
        "g",
    ]
    pieces += [
        "in",
        "per",
        "a",
        "half",
        "two",
        "point",
        "twenty",
        "<",
        "=",
        "é",
        "s",
        "'",
        "1/2",
        "w",
    ]
    texts += ["".join(draw.choices(pieces, k=draw.randint(1, 9))) for _ in range(2000)]
    same = same_words(handbook)
    asked = "texts => texts.map((text) => window.isofolio.finder.tokens(text))"
    for text, made in zip(texts, search.page.evaluate(asked, texts), strict=True):
        assert made == tokens(text, same), text


def test_tables_hold_what_the_script_needs():
    sent = tables(SAME)
    assert sent["same"]["kcl"] == "potassium chloride"
    assert "of" in sent["idle"]
    assert "no" not in sent["idle"]
