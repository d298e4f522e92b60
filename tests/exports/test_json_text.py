"""The JSON text: strict, the same bytes every time, and enough to compute the ions again."""

import hashlib
import json
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import isofolio
from isofolio.exports.figures import exported
from isofolio.exports.json_text import json_export
from isofolio.handbook import open_handbook

CATALOGUE = Path(__file__).parents[2] / "catalogue"
GENERATOR = Path(isofolio.__file__).parents[1]


@pytest.fixture(scope="module")
def text(handbook):
    return json_export(handbook)


def strictly(text):
    def refuse(constant):
        raise ValueError(f"{constant} is not JSON")

    def once(pairs):
        assert len({key for key, _ in pairs}) == len(pairs), "a key stands twice"
        return dict(pairs)

    return json.loads(text, parse_constant=refuse, object_pairs_hook=once)


def test_strict_json(text):
    assert set(strictly(text)) >= {"schema", "built_from", "plasma", "substances", "fluids"}
    assert text.endswith("}\n")


def test_a_number_that_is_not_one_is_refused():
    with pytest.raises(ValueError, match="NaN is not JSON"):
        strictly('{"sodium": NaN}')


def test_ions_computed_again_from_the_contents(text):
    made = strictly(text)
    substances = {substance["id"]: substance for substance in made["substances"]}
    checked = 0
    for fluid in made["fluids"]:
        ions, unknown = rebuilt(fluid["contents"], substances)
        for ion, per_litre in particles(fluid["per_litre"]).items():
            if ion in unknown:
                assert per_litre is None
            elif per_litre is None:
                assert ion not in ions  # of a composition that is not whole
            else:
                assert ions.get(ion, 0.0) == pytest.approx(per_litre, rel=1e-9, abs=1e-9)
                checked += 1
    assert checked > 1000


def rebuilt(contents, substances):
    """Particles per litre from contents, molar masses and what is released; and those unknown."""
    ions, unknown = {}, set()
    for content in contents:
        if "particle" in content:
            released, amount = {content["particle"]: 1}, content["mmol_per_l"]
        else:
            substance = substances[content["substance"]]
            released, grams = substance["releases"], content["g_per_l"]
            amount = (
                None if grams is None else 1000.0 * grams / (substance["g_per_mol"] or math.inf)
            )
        for ion, count in released.items():
            if amount is None:
                unknown.add(ion)
            else:
                ions[ion] = ions.get(ion, 0.0) + amount * count
    return ions, unknown


def particles(per_litre):
    """The quantities that are particles: all before the first sum."""
    names = list(per_litre)
    return {name: per_litre[name] for name in names[: names.index("cation_charge")]}


def test_osmolarity_is_the_sum_of_the_exported_particles(text):
    checked = 0
    for fluid in strictly(text)["fluids"]:
        ions = particles(fluid["per_litre"])
        osmolarity = fluid["per_litre"]["osmolarity"]
        if osmolarity is not None:
            assert sum(ions.values()) == pytest.approx(osmolarity, rel=1e-9)
            checked += 1
    assert checked > 60


def test_same_handbook_same_bytes(handbook, text):
    assert json_export(handbook) == text
    again = open_handbook(CATALOGUE).handbook
    assert again is not None
    assert json_export(again) == text


PROGRAM = """
import hashlib, sys
from pathlib import Path
from isofolio.exports.csv_text import csv_export
from isofolio.exports.json_text import json_export
from isofolio.handbook import open_handbook
handbook = open_handbook(Path(sys.argv[1])).handbook
for export in (json_export, csv_export):
    print(hashlib.sha256(export(handbook).encode()).hexdigest())
"""


def test_another_order_of_hashing_gives_the_same_bytes(handbook, text):
    from isofolio.exports.csv_text import csv_export

    environment = {**os.environ, "PYTHONHASHSEED": "4711", "PYTHONPATH": str(GENERATOR)}
    command = [sys.executable, "-B", "-c", PROGRAM, str(CATALOGUE)]
    run = subprocess.run(command, env=environment, capture_output=True, text=True, check=True)
    ours = [hashlib.sha256(t.encode()).hexdigest() for t in (text, csv_export(handbook))]
    assert run.stdout.split() == ours


def test_built_from_names_catalogue_and_program(handbook, text):
    expected = f"catalogue {handbook.digest}, isofolio {isofolio.__version__}"
    assert strictly(text)["built_from"] == expected


def test_no_clock_and_no_revision_in_it(text):
    # Dates stand only where an entry has them: when a source was looked at, when a stamp was set.
    def keys(node):
        if isinstance(node, dict):
            for key, item in node.items():
                yield key
                yield from keys(item)
        elif isinstance(node, list):
            for item in node:
                yield from keys(item)

    told = set(keys(strictly(text)))
    assert not told & {"time", "generated", "created", "revision", "commit", "host", "user"}
    assert "on" in told


def test_twelve_significant_digits_and_no_negative_zero(text):
    numbers = re.findall(r"(?<=[\s\[])-?\d[\d.]*(?:e[-+]?\d+)?(?=[,\n])", text)
    assert len(numbers) > 4000
    assert "-0.0" not in numbers
    for number in numbers:
        digits = number.split("e")[0].lstrip("-").replace(".", "").lstrip("0")
        assert len(digits.rstrip("0")) <= 12


@pytest.mark.parametrize(
    ("number", "written"),
    [
        (154.00410677618077, 154.004106776),
        (5133.490159206025, 5133.49015921),
        (1.0 / 3.0, 0.333333333333),
        (-0.0008431, -0.0008431),
        (0.0, 0.0),
        (-0.0, 0.0),
        (-2.84e-14, 0.0),
    ],
)
def test_numbers_as_exports_carry_them(number, written):
    assert exported(number) == written
    assert math.copysign(1.0, exported(number)) == (-1.0 if written < 0 else 1.0)


def test_a_value_that_is_not_finite_is_never_written(handbook_of_one, monkeypatch):
    handbook = handbook_of_one(contents=[])
    parts = (("sodium", lambda _: math.nan),)
    monkeypatch.setattr("isofolio.exports.json_text.DOCUMENT_PARTS", parts)
    with pytest.raises(ValueError, match="not JSON compliant"):
        json_export(handbook)


def test_text_of_any_script_is_kept(handbook_of_one):
    name = 'Vollelektrolytlösung "5 %" \\ Na⁺'
    text = json_export(handbook_of_one(name=name, contents=[]))
    assert strictly(text)["fluids"][0]["name"] == name
    assert "Vollelektrolytlösung" in text
