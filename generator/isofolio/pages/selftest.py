"""The self-test: ready papers on one page, one chosen by its number in the address."""

from typing import Any

from isofolio.handbook import Handbook
from isofolio.pages.page import Page, rendered
from isofolio.teaching.question import Answer, Question
from isofolio.teaching.questions import KINDS, TITLES, paper
from isofolio.wording.addresses import SELF_TEST, TEACHING

PAPERS, SIZE = 12, 12
LETTERS = "abcdefgh"


def self_test_page(handbook: Handbook) -> Page:
    """Twelve papers of twelve questions, their answers at the end of each."""
    context = {
        "papers": [_paper(handbook, number) for number in range(1, PAPERS + 1)],
        "kinds": len(KINDS),
        "size": SIZE,
        "date": handbook.date,
        "digest": handbook.digest,
    }
    return Page(
        path=SELF_TEST,
        title="Self-test",
        description="Papers of questions computed from the handbook, with a sheet of answers.",
        body=rendered("self_test.html", SELF_TEST, context),
        crumbs=(("Teaching", TEACHING),),
        scripts=("scripts/chosen.js", "scripts/self-test.js"),
    )


def seed_of(number: int) -> str:
    """The seed of a paper that the site prints: a class that names the number gets the same."""
    return f"paper {number}"


def _paper(handbook: Handbook, number: int) -> dict[str, Any]:
    questions = paper(handbook, seed_of(number), SIZE).questions
    rows = [_question(number, place, one) for place, one in enumerate(questions, 1)]
    return {"number": number, "id": f"paper={number}", "questions": rows}


def _question(paper_number: int, place: int, one: Question) -> dict[str, Any]:
    label, address = one.teaches
    return {
        "id": f"p{paper_number}q{place}",
        "title": TITLES[one.kind],
        "ask": one.ask,
        "answers": [_answer(i, answer) for i, answer in enumerate(one.answers)],
        "right": LETTERS[one.right],
        "right_text": one.answers[one.right].text,
        "working": one.working,
        "label": label,
        "address": address,
    }


def _answer(place: int, answer: Answer) -> dict[str, str]:
    return {
        "letter": LETTERS[place],
        "text": answer.text,
        "slip": answer.slip,
        "because": answer.because,
    }
