"""The forms in which the handbook can be taken away as data, and what readers may rely on.

The order is the order of `isofolio export --help` and of the Downloads page. A new form is one
line here and one function in `exports`.
"""

from dataclasses import dataclass

# The first key of the JSON document; POLICY says what raises it.
SCHEMA = 1

POLICY = (
    "The number rises when a program that reads the document could misread it: when a key or a "
    "quantity goes or is renamed, when a unit, a type or a meaning changes, when a closed list of "
    "words gains or loses one.",
    "It stays when something is added: a key, a quantity, a fluid. So read the keys you know, "
    "leave the others alone, and stop at a number you do not know.",
    "A figure that changes because the catalogue or a formula was mended raises nothing: compare "
    "built_from, and read What changed.",
)


@dataclass(frozen=True)
class ExportForm:
    """One form of the data.

    word: at the command line. file: its name in the folder of downloads. label, holds: how the
    Downloads page names it, and what it says is in it.
    """

    word: str
    file: str
    label: str
    holds: str


EXPORT_FORMS = (
    ExportForm(
        "json",
        "isofolio.json",
        "JSON",
        "everything: contents, figures, reasons, judgements, sources",
    ),
    ExportForm(
        "schema",
        "isofolio.schema.json",
        "JSON Schema of that file",
        "every key with its meaning, every quantity with its unit (draft 2020-12)",
    ),
    ExportForm("csv", "isofolio.csv", "CSV", "a row a fluid and quantity, with unit and reason"),
    ExportForm(
        "xlsx",
        "isofolio.xlsx",
        "Workbook",
        "for a spreadsheet: fluids, contents, containers, cautions, label audit, sources",
    ),
    ExportForm(
        "fhir",
        "isofolio.fhir.json",
        "HL7 FHIR R5",
        "a bundle of Medication and Substance resources, strengths in UCUM units",
    ),
    ExportForm(
        "linked-data",
        "isofolio.jsonld",
        "Linked data",
        "fluids, substances and sources in the words of schema.org (JSON-LD)",
    ),
)

EXPORT_WORDS = tuple(form.word for form in EXPORT_FORMS)
