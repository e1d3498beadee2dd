"""A gathering's own words in, the boxes of what they tell that is dangerous out.

Read are its name, its summary and the sentences of its text, for acts and for names of what poisons. The rules for lines,
cures and courses are not asked: a gathering has none, and its recipes have boxes of their own.
"""

from __future__ import annotations

from dataclasses import replace

from generator.compute.safety.case import Case
from generator.compute.safety.check import in_order
from generator.compute.safety.facts.acts import Told
from generator.compute.safety.facts.gather import Facts, gather_facts
from generator.compute.safety.poisons import tell_names
from generator.compute.safety.rules import RULES
from generator.compute.safety.told import tell
from generator.model.book import Book
from generator.model.gathering import Gathering
from generator.model.recipe import Recipe
from generator.model.results import Caution, JudgedText
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.phrases import spoken

METHOD_SAYS, TEXT_SAYS = "the method says “", "its text says “"
"A gathering has no method."
IN_BOOK = "`accept:` in book.yaml"


def judge_text(book: Book, gathering: Gathering, tables: Tables) -> JudgedText:
    """What its words tell; nothing of a book in another language."""
    if not book.config.is_english:
        return JudgedText(gathering=gathering)
    facts, log = _facts(book, gathering, tables), ProblemLog()
    boxes: list[Caution] = []
    for rule in RULES:
        case = Case(facts=facts, tables=tables, log=log, slugs=rule.slugs, boxes=boxes, accept_at=IN_BOOK)
        tell(case)
        tell_names(case)
    cautions = tuple(map(_of_text, in_order(boxes)))
    return JudgedText(gathering=gathering, cautions=cautions, problems=log.sorted())


def _facts(book: Book, gathering: Gathering, tables: Tables) -> Facts:
    """As of a recipe that has words and no more; the names of the dishes say of what the words speak."""
    words = Recipe(
        slug=gathering.slug,
        file=gathering.file,
        name=gathering.name,
        summary=gathering.summary,
        body=gathering.body,
        position=gathering.position,
    )
    facts = gather_facts(replace(book, uses=()), words, None, tables)
    dishes = (
        Told(
            kind="dish",
            heard=spoken(dish.link.text),
            following="",
            sentence=None,
            position=dish.link.position,
        )
        for dish in gathering.dishes
    )
    return replace(facts, words=replace(facts.words, told=(*facts.words.told, *dishes)))


def _of_text(caution: Caution) -> Caution:
    """With no key to write: what is not told belongs into its sentence."""
    return replace(caution, because=caution.because.replace(METHOD_SAYS, TEXT_SAYS), missing=())
