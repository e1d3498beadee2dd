"""Birds that are rinsed before they cook in; the box of what splashes about out."""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule

WASHED = "washed-bird"

BIRDS = frozenset({"poultry", "waterfowl", "upland bird"})
SALTED = frozenset({"cure", "pickle", "ferment", "soak", "marinate"})
"Stages whose salt or water is rinsed off. Source: words of the trade."


def washed_bird(case: Case) -> None:
    """A stage `rinse` of a raw bird. Met, without a box: it rinses a cure or a soak off, or the sink is cleaned."""
    index = case.facts.first_stage("rinse")
    raw = (meat for meat in case.facts.meats if meat.line is None or meat.line.link is None)
    bird = next((meat for meat in raw if meat.animal.group in BIRDS), None)
    if index is None or bird is None or "sink cleaned" in case.facts.words.facts or _is_salted(case, index):
        return
    if not any(case.tables.stages.get(stage.name, False) for stage in case.stages[:index]):
        case.box(WASHED, f"{bird.because}, and is rinsed raw", bird, stage=index)


def _is_salted(case: Case, index: int) -> bool:
    return case.recipe.cure is not None or any(stage.name in SALTED for stage in case.stages[:index])


RULES = (Rule(slugs=(WASHED,), look=washed_bird),)
