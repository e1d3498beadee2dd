"""Meat of the deer family in; boxes on deer disease, where the book's area has it or does not say, and on organs out."""

from __future__ import annotations

import re

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import MeatFact
from generator.compute.safety.facts.meats import DEER, game_group, wild_game_of
from generator.model.recipe import Meat

DISEASE, BONES, PARTS = "deer-disease", "deer-bones", "deer-disease-parts"
MOOSE_ORGANS, ORGANS = "moose-organs", "deer-organs"
MOOSE = "moose"
AREA = "deer disease area"
"Key of book.yaml: asked once for all recipes."
PART_WORDS = re.compile(
    r"\b(?:brains?|spinal cord|spine|backbone|head|skull|eyes|eyeballs?|spleen|tonsils?|lymph(?: nodes?)?)\b"
)
"Source: Texas Parks and Wildlife, parts never to eat; spine and skull hold the cord and the brain."
BONE_WORDS = re.compile(
    r"\b(?:bones?|saddle|chine|bone-in (?:neck|loin|ribs?|chops?)|neck bones?|rib rack|carcass)\b"
)
TAKEN_OUT = re.compile(r"\b(?:without|no|off the|removed|out|cut away|taken off)\b")
"Words that say a part is not in the pot."
LEG_BONES = re.compile(r"\b(?:leg|legs|shanks?|marrow|shin|femur)\b")
"Bones without the spine. Source: anatomy."
BONY_CUTS = re.compile(r"\b(?:neck|saddle|loin|backstrap|chops?|ribs?|rack|whole)\b")
"Cuts whose bone is the spine, where the bone is in. Source: anatomy."
ORGAN_WORDS = re.compile(r"\b(?:livers?|kidneys?)\b")


def disease(case: Case) -> None:
    """Nothing where the book says that its area is free of it."""
    deer, area = _deer(case), case.facts.config.deer_disease_area
    if not deer or area is False:
        return
    because = " and ".join(meat.because for meat in deer)
    if area is None:
        because += ", and the book does not say whether its area has deer disease"
        case.cannot_tell(DISEASE, because, (AREA,), *deer)
    else:
        case.box(DISEASE, f"{because}, and the book's area has deer disease", *deer)
    for meat in deer:
        _judge_part(case, meat)


def _deer(case: Case) -> list[MeatFact]:
    return [meat for meat in wild_game_of(case.facts) if game_group(meat.animal) == DEER]


def _judge_part(case: Case, meat: MeatFact) -> None:
    """Parts that hold most of it, then bones that can bring the spine."""
    words = meat.words.lower()
    part = PART_WORDS.search(words)
    if part is None or TAKEN_OUT.search(words):
        if _brings_spine(case, meat):
            case.box(BONES, f"{meat.words} can bring the spine with it", meat)
        return
    because = f"{meat.words} names the {part.group()}"
    if case.facts.config.deer_disease_area is None:
        case.cannot_tell(PARTS, because, (AREA,), meat)
        return
    case.refuse(
        PARTS,
        meat,
        message=f"The recipe uses {meat.words}: the {part.group()} of a deer from an area with deer disease.",
        hint="Bone the meat out, and leave brain, spinal cord, eyes, spleen, tonsils and lymph nodes out.",
        because=because,
    )


def _brings_spine(case: Case, meat: MeatFact) -> bool:
    own, words = meat.written, meat.words.lower()
    if isinstance(own, Meat) and own.bone == "in" and BONY_CUTS.search(own.cut.lower()):
        return True
    return BONE_WORDS.search(words) is not None and LEG_BONES.search(words) is None


def organs(case: Case) -> None:
    """Liver and kidney of the deer family; a moose's are advised against altogether."""
    for meat in _deer(case):
        organ = ORGAN_WORDS.search(meat.words.lower())
        if organ is not None and meat.animal.key == MOOSE:
            case.refuse(
                MOOSE_ORGANS,
                meat,
                message=f"The recipe uses {meat.words}; advisories say no {organ.group()} of moose, or very little.",
                hint="Use the meat, or read the advisory of your own area.",
                because=meat.because,
            )
        elif organ is not None:
            case.box(ORGANS, meat.because, meat)


RULES = (
    Rule(slugs=(DISEASE, BONES, PARTS), look=disease),
    Rule(slugs=(MOOSE_ORGANS, ORGANS), look=organs),
)
