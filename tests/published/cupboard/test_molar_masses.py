"""Every formula of the catalogue against a second library and against CIAAW by hand."""

import molmass
import pytest

from isofolio.chemistry.formula import atoms, molar_mass

# CIAAW standard atomic weights 2021, abridged (read, as the specification records).
CIAAW = {
    "H": 1.008,
    "C": 12.011,
    "N": 14.007,
    "O": 15.999,
    "Na": 22.98976928,
    "Mg": 24.305,
    "P": 30.973761998,
    "S": 32.06,
    "Cl": 35.45,
    "K": 39.0983,
    "Ca": 40.078,
}

# Water of crystallisation by the word of the entry.
WATER = {
    "anhydrous": 0,
    "monohydrate": 1,
    "dihydrate": 2,
    "trihydrate": 3,
    "hexahydrate": 6,
    "heptahydrate": 7,
}

# What each particle of the catalogue is made of, its hydrogen and charge aside: chemistry by name.
WITHOUT_HYDROGEN = {
    "sodium": {"Na": 1},
    "potassium": {"K": 1},
    "calcium": {"Ca": 1},
    "magnesium": {"Mg": 1},
    "chloride": {"Cl": 1},
    "bicarbonate": {"C": 1, "O": 3},
    "lactate": {"C": 3, "O": 3},
    "acetate": {"C": 2, "O": 2},
    "gluconate": {"C": 6, "O": 7},
    "malate": {"C": 4, "O": 5},
    "citrate": {"C": 6, "O": 7},
    "sulfate": {"S": 1, "O": 4},
    "dihydrogen-phosphate": {"P": 1, "O": 4},
    "hydrogen-phosphate": {"P": 1, "O": 4},
    "glycerophosphate": {"C": 3, "P": 1, "O": 6},
    "octanoate": {"C": 8, "O": 2},
    "glucose": {"C": 6, "O": 6},
    "mannitol": {"C": 6, "O": 6},
}


@pytest.fixture(scope="module")
def weighed(handbook):
    entries = handbook.catalogue.substances.values()
    return [substance for substance in entries if substance.formula is not None]


def test_second_library_agrees_on_every_formula(weighed):
    # molmass averages over isotopes, hence a tenth of a per mille and not less.
    assert len(weighed) >= 24
    for substance in weighed:
        expected = molmass.Formula(substance.formula).mass
        assert molar_mass(substance.formula) == pytest.approx(expected, rel=1e-4), substance.id


def test_ciaaw_weights_give_the_same_to_nine_digits(weighed):
    for substance in weighed:
        by_hand = sum(CIAAW[symbol] * n for symbol, n in atoms(substance.formula).items())
        assert molar_mass(substance.formula) == pytest.approx(by_hand, rel=1e-9), substance.id


def test_every_hydrate_word_is_in_its_formula(weighed):
    for substance in weighed:
        _, _, count = substance.formula.partition("(H2O)")
        water = int(count or "1") if "(H2O)" in substance.formula else 0
        assert water == WATER[substance.hydrate], substance.id


def test_what_a_substance_releases_is_what_it_is_made_of(weighed):
    # Hydrogen aside (acids give it, bases take it), the heavy atoms of the particles are those of
    # the formula without its water; a hydroxide's oxygen becomes water too.
    for substance in weighed:
        if substance.id == "water":
            continue
        dry = atoms(substance.formula.partition("(H2O)")[0])
        made = {}
        for particle, count in substance.releases.items():
            for symbol, n in WITHOUT_HYDROGEN[str(particle)].items():
                made[symbol] = made.get(symbol, 0) + n * count
        made["O"] = made.get("O", 0) + substance.base
        assert {s: n for s, n in made.items() if n} == {s: n for s, n in dry.items() if s != "H"}, (
            substance.id
        )


@pytest.mark.parametrize(
    ("identifier", "label"),
    [
        # US labels and USP text (read). 147.02 rests on older weights of calcium and chlorine.
        ("sodium-chloride", 58.44),
        ("sodium-lactate", 112.06),
        ("potassium-chloride", 74.55),
        ("calcium-chloride-dihydrate", 147.02),
        ("glucose", 180.16),
        ("glucose-monohydrate", 198.17),
    ],
)
def test_masses_that_labels_print(handbook, identifier, label):
    formula = handbook.catalogue.substances[identifier].formula
    assert molar_mass(formula) == pytest.approx(label, abs=0.013)
