"""A question with its answers: the right one by the handbook, each wrong one by a named slip."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from isofolio.teaching.lots import Lots
from isofolio.wording.figures import rounded, typeset, unit_text

DIGITS = 3
"""Figures of a question and of its answers are told to three digits."""

APART = 0.05
"""Two figures that differ by less are one answer: no paper asks for the second decimal."""

FEWEST_WRONG, MOST_WRONG = 2, 3


@dataclass(frozen=True)
class Answer:
    """One answer to choose. slip: the mistake that leads to it, "" for the right answer;
    because: how that mistake comes to this answer; number: its figure, None for words."""

    text: str
    slip: str = ""
    because: str = ""
    number: float | None = None


@dataclass(frozen=True)
class Question:
    """kind: its id; ask: the question; answers: in the order shown; working: one sentence that
    shows the sum; teaches: label and address of the section that teaches it."""

    kind: str
    ask: str
    answers: tuple[Answer, ...]
    working: str
    teaches: tuple[str, str]

    @property
    def right(self) -> int:
        """The place of the right answer, counted from 0."""
        return next(place for place, answer in enumerate(self.answers) if not answer.slip)


def told(number: float) -> str:
    """A figure to three digits, without zeros at its end.

    >>> told(2.2302), told(20.12), told(308.01), told(1750.0), told(0.0)
    ('2.23', '20.1', '308', '1750', '0')
    """
    if number == 0:
        return "0"
    decimals = max(0, DIGITS - 1 - math.floor(math.log10(abs(number))))
    text = rounded(number, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def measured(number: float, unit: str) -> str:
    """A figure with its unit, held together.

    >>> measured(20.12, "mmol") == "20.1" + chr(160) + "mmol"
    True
    """
    return told(number) + unit_text(unit)


def right(number: float, unit: str) -> Answer:
    """The right answer, of a figure."""
    return Answer(measured(number, unit), number=number)


def wrong(number: float, unit: str, slip: str, because: str) -> Answer:
    """A wrong answer, of the figure that a slip comes to."""
    return Answer(measured(number, unit), slip, typeset(because), number)


def same(first: Answer, second: Answer) -> bool:
    """Whether two answers say the same: one text, or figures that hardly differ.

    >>> same(Answer("4.4", number=4.4), Answer("4.5", number=4.5))
    True
    """
    if first.text == second.text:
        return True
    if first.number is None or second.number is None:
        return False
    largest = max(abs(first.number), abs(second.number))
    return abs(first.number - second.number) <= APART * largest


def distinct(answers: Sequence[Answer]) -> tuple[Answer, ...]:
    """The answers without any that says what an earlier one says."""
    kept: list[Answer] = []
    for answer in answers:
        if not any(same(answer, other) for other in kept):
            kept.append(answer)
    return tuple(kept)


def question(
    kind: str,
    ask: str,
    answers: Sequence[Answer],
    working: str,
    teaches: tuple[str, str],
) -> Question | None:
    """A question whose answers all differ; the first of `answers` is the right one.

    None where the slips do not lead to two other answers: then nothing can be chosen.
    """
    kept = distinct(answers)[: 1 + MOST_WRONG]
    if len(kept) <= FEWEST_WRONG:
        return None
    return Question(kind, typeset(ask), kept, typeset(working), teaches)


def shuffled(asked: Question, lots: Lots) -> Question:
    """The same question with its answers in a drawn order."""
    answers = lots.shuffled(asked.answers)
    return Question(asked.kind, asked.ask, answers, asked.working, asked.teaches)
