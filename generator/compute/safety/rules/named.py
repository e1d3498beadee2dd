"""Plants and animals that named_boxes.csv names in; for each its box, or the refusal of a recipe that eats it, out.

A rule looks for the rows of its own slugs, so that the rows of a hazard stand among its other rules.
"""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import MeatFact
from generator.compute.safety.facts.plants import PlantFact
from generator.model.published import NamedBox

MERGANSER, WATERFOWL, FISH = "merganser", "waterfowl-advice", "fish-advice"
PUFFER, SHARK, ESCOLAR, ARMADILLO = "poison-flesh", "greenland-shark", "oily-fish", "armadillo"


def named(case: Case) -> None:
    """A name is met: the box. Nothing that a recipe does can change it."""
    for row in case.tables.named_boxes:
        if row.slug in case.slugs:
            for plant in _plants(case, row):
                _say(case, row, plant.line.name, plant)
            for meat in _meats(case, row):
                _say(case, row, meat.words, meat)


def _say(case: Case, row: NamedBox, name: str, met: PlantFact | MeatFact) -> None:
    if row.message:
        message = row.message.format(name=name)
        case.refuse(row.slug, met, message=message, hint=row.hint, because=met.because)
    else:
        case.box(row.slug, met.because, met)


def _plants(case: Case, row: NamedBox) -> list[PlantFact]:
    if row.by != "plant":
        return []
    return [fact for fact in case.facts.plants_of(row.name) if fact.is_foraged or not row.wild]


def _meats(case: Case, row: NamedBox) -> list[MeatFact]:
    return [
        meat
        for meat in case.facts.meats
        if _row_of(case, meat) == row
        and (meat.is_wild or not row.wild)
        and (meat.line is None or row.in_lines)
    ]


def _row_of(case: Case, meat: MeatFact) -> NamedBox | None:
    """That of the animal itself before that of its group."""
    wanted = (("animal", meat.animal.key), ("group", meat.animal.group))
    rows = {(row.by, row.name): row for row in case.tables.named_boxes}
    return next((rows[name] for name in wanted if name in rows), None)


RULES = (Rule(slugs=(PUFFER, SHARK, MERGANSER, ARMADILLO, ESCOLAR, WATERFOWL, FISH), look=named),)
