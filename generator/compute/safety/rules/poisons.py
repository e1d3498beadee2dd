"""One rule for each class of plants and fungi that poison; the rows of poisons.csv are what it looks for."""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.poisons import BY_CLASS
from generator.problems import Position
from generator.tables.names import Slip

NO_NAME = frozenset({"a", "all", "an", "any", "the"})
"No name begins with one of these: any root is not amy root."


def by_name(case: Case) -> None:
    """What a recipe names is told for every rule alike, those with looks of their own too: `poisons.tell_names`."""


def near_names(case: Case) -> None:
    """Words of no name, one letter off the name of what poisons: a question to the author, and no box."""
    recipe = case.recipe
    lines = [(line.name, line.position) for line in recipe.ingredients if line.link is None]
    for text, position in ((recipe.name, recipe.position), *lines):
        for slip in case.tables.lexicon.near(text, whole=True):
            _ask(case, slip, text, position)
    for sentence in recipe.body.sentences if case.facts.words.told else ():
        for slip in case.tables.lexicon.near(sentence.text):
            _ask(case, slip, sentence.text, sentence.at(slip.start))


def _ask(case: Case, slip: Slip, text: str, position: Position) -> None:
    written = text[slip.start : slip.end]
    if written.split()[0].lower() in NO_NAME:
        return
    case.log.add(
        "near-name",
        position,
        f"'{written}' is no name that is known, and one letter off '{slip.meant}', which poisons.",
        f"If {slip.meant} is meant, write it so: what must be known of it is told then. If not, write another name.",
    )


RULES = (
    *(Rule(slugs=(slug,), look=by_name) for slug in BY_CLASS.values()),
    Rule(slugs=(), look=near_names),
)
