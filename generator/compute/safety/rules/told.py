"""Hazards of which words alone tell: nothing in the front matter shows them. Their rows stand in acts.csv."""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule


def by_words(case: Case) -> None:
    """Nothing to add: each rule is shown the acts of its own slugs where it has looked."""


SLUGS: tuple[str, ...] = (
    "not-canning",
    "doubtful-jar",
    "raw-game",
    "aged-fish",
    "honey-baby",
    "poison-liver",
    "poison-roe",
    "crushed-stones",
    "poison-spirit",
    "distilling",
    "game-brain",
    "whelk-gland",
    "rabbit-fever",
    "drain-lye",
    "gathered-shellfish",
    "found-dead",
    "bad-wood",
    "no-taste-test",
    "uncured-smoke",
    "cool-oven",
    "hold-warm",
    "jar-unprocessed",
    "raw-milk",
    "part-cooked",
    "used-marinade",
    "tasted-raw",
    "cooked-by-eye",
    "pregnant-old-ill",
    "histamine",
    "ciguatera",
    "sprayed-ground",
    "raw-water",
    "well-water-baby",
    "raw-sprouts",
    "kombucha",
    "same-board",
    "vessel",
)
"Among equals a box stands where its slug stands here."

RULES = (Rule(slugs=SLUGS, look=by_words),)
