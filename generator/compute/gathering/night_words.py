"""A plan in; what begins or ends at night all the same, and why, as notes, out."""

from __future__ import annotations

from collections.abc import Mapping

from generator.compute.gathering.laid import Given, Laid
from generator.compute.gathering.night import Presence, nights
from generator.model.moment_words import moment_words
from generator.model.plan import DAY_FROM, DAY_TO

OF_A_DISH = "a dish is over when it is served"
NO_HOUR = "no hour was found that has all of it by day"


def night_notes(given: Given, laid: Laid, why: Mapping[str, str]) -> list[str]:
    """One for each recipe."""
    notes = []
    for slug in given.order:
        found = nights(given, laid, (slug,))
        if found:
            reason = why.get(slug) or (OF_A_DISH if slug in given.dishes else NO_HOUR)
            notes.append(
                f"{given.book.recipes[slug].name}: {_listed(given, found)}, at night "
                f"({DAY_TO:%H:%M} to {DAY_FROM:%H:%M}), because {reason}."
            )
    return notes


def _listed(given: Given, found: tuple[Presence, ...]) -> str:
    """Each stage once, with its first time."""
    told: dict[tuple[str, bool], list[Presence]] = {}
    for one in found:
        told.setdefault((one.stage, one.is_end), []).append(one)
    said = []
    for (stage, is_end), times in told.items():
        more = f" and {len(times) - 1} more" if len(times) > 1 else ""
        at = moment_words(given.moment(min(one.at for one in times)))
        said.append(f"{stage} {'ends' if is_end else 'begins'} {at}{more}")
    return " and ".join(filter(None, (", ".join(said[:-1]), said[-1])))
