"""Meat of the deer family in, boxes on deer disease out, where the book's area has it or does not say."""

from __future__ import annotations

import re

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts, MeatFact, position_of
from generator.compute.safety.facts.meats import game_group, wild_game_of
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

AREA = "deer disease area"
"Key of book.yaml: asked once for all recipes."
PARTS = re.compile(
    r"\b(?:brains?|spinal cord|spine|backbone|head|skull|eyes|eyeballs?|spleen|tonsils?|lymph(?: nodes?)?)\b"
)
"Source: Texas Parks and Wildlife, parts never to eat; spine and skull hold the cord and the brain."
BONES = re.compile(
    r"\b(?:bones?|saddle|chine|bone-in (?:neck|loin|ribs?|chops?)|neck bones?|rib rack|carcass)\b"
)
TAKEN_OUT = re.compile(r"\b(?:without|no|off the|removed|out|cut away|taken off)\b")
"Words that say a part is not in the pot."
LEG_BONES = re.compile(r"\b(?:leg|legs|shanks?|marrow|shin|femur)\b")
"Bones without the spine. Source: anatomy."
BONY_CUTS = re.compile(r"\b(?:neck|saddle|loin|backstrap|chops?|ribs?|rack|whole)\b")
"Cuts whose bone is the spine, where the bone is in. Source: anatomy."


def deer_disease(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Nothing where the book says that its area is free of it."""
    deer = [meat for meat in wild_game_of(facts) if game_group(meat.animal) == "deer family"]
    area = facts.config.deer_disease_area
    if not deer or area is False:
        return []
    because = " and ".join(meat.because for meat in deer)
    if area is None:
        because += ", and the book does not say whether its area has deer disease"
        boxes = cannot_tell("deer-disease", because, (AREA,), tables)
    else:
        boxes = [box("deer-disease", f"{because}, and the book's area has deer disease", tables)]
    return boxes + [found for meat in deer for found in _of_parts(meat, facts, tables, log)]


def _of_parts(meat: MeatFact, facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    part = PARTS.search(meat.words.lower())
    if part is None or TAKEN_OUT.search(meat.words.lower()):
        return _of_bones(meat, facts, tables)
    because = f"{meat.words} names the {part.group()}"
    if facts.config.deer_disease_area is None:
        return cannot_tell("deer-disease-parts", because, (AREA,), tables)
    return contradict(
        "deer-disease-parts",
        facts,
        tables,
        log,
        position=position_of(meat, facts),
        message=f"The recipe uses {meat.words}: the {part.group()} of a deer from an area with deer disease.",
        hint="Bone the meat out, and leave brain, spinal cord, eyes, spleen, tonsils and lymph nodes out.",
        because=because,
    )


def _of_bones(meat: MeatFact, facts: Facts, tables: Tables) -> list[Caution]:
    words = meat.words.lower()
    own = facts.recipe.meat if meat.line is None else None
    bone_in = own is not None and own.bone == "in" and BONY_CUTS.search(own.cut.lower()) is not None
    bones = BONES.search(words) is not None and LEG_BONES.search(words) is None
    if not bone_in and not bones:
        return []
    return [box("deer-bones", f"{meat.words} can bring the spine with it", tables)]
