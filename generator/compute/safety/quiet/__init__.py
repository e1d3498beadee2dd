"""What a page tells in a quiet line, never in a box; in the order of the page."""

from __future__ import annotations

from collections.abc import Callable

from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.quiet.foods import garden_facts
from generator.compute.safety.quiet.heat import heat_facts
from generator.compute.safety.quiet.times import time_lines
from generator.tables import Tables

QUIET: tuple[Callable[[Facts, Tables], tuple[str, ...]], ...] = (heat_facts, garden_facts, time_lines)


def quiet_facts(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """Every quiet line of a recipe, each once; what says that it is ready, or keeps, only of one that is read whole."""
    telling = (garden_facts,) if facts.holes else QUIET
    return tuple(dict.fromkeys(line for tell in telling for line in tell(facts, tables)))
