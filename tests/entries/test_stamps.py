"""What a signature covers: changed contents end it, a new ward word does not."""

import hashlib

import pytest

from isofolio.entries.fluids import Fluid
from isofolio.entries.reading import read_catalogue
from isofolio.entries.situations import Situation
from isofolio.entries.stamps import CLINICAL_FIELDS, digest, stamp_of, state
from isofolio.entries.teaching import Term

SALINE = {
    "id": "saline",
    "name": "Saline",
    "role": "ready",
    "status": "current",
    "contents": [{"substance": "sodium-chloride", "amount": "0.9 % w/v"}],
    "contents_cite": "common practice",
    "containers": [{"volume": "500 mL", "kind": "bag"}],
    "review": {"state": "draft"},
}
# The canonical form of the same, written by hand: sorted keys, no spaces, amounts by their text.
CANONICAL = (
    '{"containers":[{"kind":"bag","volume":"500 mL"}],'
    '"contents":[{"amount":"0.9 % w/v","substance":"sodium-chloride"}],'
    '"role":"ready","status":"current"}'
)
CITE = {"source": "a-label", "at": "2", "seen": "read", "on": "2026-11-25"}


def fluid(**changes):
    return Fluid.model_validate(SALINE | changes)


def stamped(covers, **changes):
    dates = {"on": "2026-11-25", "due": "2027-11-25"}
    return fluid(review={"state": "checked", "by": "A", "covers": covers, **dates}, **changes)


def test_the_digest_is_that_of_the_canonical_form():
    assert digest(fluid()) == hashlib.sha256(CANONICAL.encode()).hexdigest()[:12]


@pytest.mark.parametrize(
    "change",
    [
        {"contents": [{"substance": "sodium-chloride", "amount": "0.90 % w/v"}]},
        {"contents": [{"substance": "potassium-chloride", "amount": "0.9 % w/v"}]},
        {"contents": [{"particle": "sodium", "amount": "154 mmol/L"}]},
        {"complete": "no"},
        {"variants": [{"name": "other", "contents": SALINE["contents"], "cite": CITE}]},
        {"declared": [CITE | {"values": {"sodium": "154 mmol/L"}}]},
        {"containers": [{"volume": "1000 mL", "kind": "bag"}]},
        {"containers": [{"volume": "500 mL", "kind": "bottle"}]},
        {"status": "retired", "status_note": {"text": "gone", "cite": "common practice"}},
        {"status_note": {"text": "gone", "cite": "common practice"}},
        {"replaced_by": "glucose-5"},
        {"role": "concentrate"},
        {"giving": [{"text": "Slowly.", "cite": "common practice"}]},
        {"diluent": {"fluids": ["glucose-5"], "cite": "common practice"}},
        {"route": {"vein": "central", "text": "Centrally.", "cite": "common practice"}},
        {"with_blood": {"text": "Never.", "cite": "common practice"}},
    ],
)
def test_every_clinical_change_ends_a_signature(change):
    covers = digest(fluid())
    assert digest(fluid(**change)) != covers
    assert state(stamped(covers, **change)) == "draft"


@pytest.mark.parametrize(
    "change",
    [
        {"name": "Sodium chloride 0.9 %"},
        {"also_known_as": [{"name": "salt water", "kind": "ward word"}]},
        {"jurisdiction": ["UK"]},
        {"situations": ["low-sodium"]},
    ],
)
def test_names_and_places_end_none(change):
    covers = digest(fluid())
    assert digest(fluid(**change)) == covers
    assert state(stamped(covers, **change)) == "checked"


TERM = {
    "id": "mole",
    "name": "mole",
    "text": "An amount.",
    "cite": "common practice",
    "review": {"state": "draft"},
}


@pytest.mark.parametrize(
    "change",
    [{"text": "A burrowing animal."}, {"name": "mol"}, {"also_known_as": ["mol"]}, {"cite": CITE}],
)
def test_of_another_entry_everything_is_checked(change):
    covers = digest(Term.model_validate(TERM))
    assert digest(Term.model_validate(TERM | change)) != covers


def test_a_situation_without_a_stamp_is_a_draft():
    stub = Situation(id="a", name="A", summary="A sentence.")
    assert stamp_of(stub).state == state(stub) == "draft"


def test_what_says_no_more_than_its_absence_changes_nothing():
    assert digest(fluid(giving=[], complete="yes")) == digest(fluid())


def test_the_stamp_does_not_cover_itself():
    covers = digest(fluid())
    assert digest(stamped(covers)) == covers


def test_a_stamp_over_something_else_is_a_draft():
    assert state(stamped("0" * 12)) == "draft"
    assert state(fluid()) == "draft"
    assert state(fluid(review={"state": "draft", "covers": digest(fluid())})) == "draft"


def test_the_order_of_keys_in_a_file_does_not_matter():
    assert digest(Fluid.model_validate(dict(reversed(SALINE.items())))) == digest(fluid())


def test_clinical_fields_are_fields_of_a_fluid():
    assert set(CLINICAL_FIELDS) <= set(Fluid.model_fields)


def test_every_fluid_of_a_catalogue_has_a_digest_of_its_own(catalogue):
    digests = [digest(fluid) for fluid in read_catalogue(catalogue).catalogue.fluids.values()]
    assert len(set(digests)) == len(digests) == 6
    assert all(len(text) == 12 and int(text, 16) >= 0 for text in digests)
