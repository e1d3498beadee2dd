"""The closed lists of words that several tables share; their tables in, rows out."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from generator.model.published import NamedBox, Sourced
from generator.tables.csvfile import Shelf, Wrong, never, normal

CERTAINTIES = ("seen", "second-hand", "from memory", "common practice", "house choice")
GROUPS = (
    *("deer family", "wild pig", "bear", "small game", "other game", "carnivore", "waterfowl", "upland bird"),
    *("fish", "shellfish", "reptile", "domestic", "poultry"),
)
WATERS = ("fresh", "salt", "both")
"Where a fish or shellfish lives: parasites and histamine ask."
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"Signal words of ANSI Z535."

ARTICLES = ("the", "a", "an")
"Dropped before a place: in the fridge, on a rack."


@dataclass(frozen=True, slots=True, kw_only=True)
class StageName(Sourced):
    """What a stage of a recipe can be called."""

    name: str
    heats: bool
    "Can bring the middle of a piece to a temperature."


HAS_WATER = never(
    "a fish or shellfish has its water, and nothing else has one",
    lambda row: bool(row.water) != (row.group in ("fish", "shellfish")),
)
"A check of animals.csv."


BY_PLACE, BY_HEAT = "by place", "smoke"
"In place of a stage: the place decides which it is, or the temperature does."
NEEDS = ("meat", "casings", "length", "heat", "told", "vessel", "canner", "jars", "no cure")


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodVerb(Sourced):
    """Words of a method that are a stage."""

    forms: tuple[str, ...]
    "As an order says it: thaw."
    done: tuple[str, ...] = ()
    "Behind `is`: thawed."
    going: tuple[str, ...] = ()
    "Behind `keep`: thawing."
    stage: str
    "A name of stages.csv; `by place`, `smoke`."
    needs: tuple[str, ...] = ()
    "What must be told before it is certain that this stage is meant: NEEDS."
    place: str = ""
    "Where it happens by its name alone."
    lacks: tuple[str, ...] = ()
    "Words beside which it is something else."


def read_method_verbs(
    shelf: Shelf, stages: Collection[str], places: Collection[str]
) -> dict[str, MethodVerb]:
    """The verbs by each form of an order."""

    def check(verb: MethodVerb) -> None:
        if verb.stage not in {*stages, BY_PLACE, BY_HEAT}:
            raise Wrong(f"unknown stage '{verb.stage}'")
        if not set(verb.needs) <= set(NEEDS):
            raise Wrong(f"unknown need among '{'; '.join(verb.needs)}'")
        if verb.place and verb.place not in places:
            raise Wrong(f"unknown place '{verb.place}'")

    return shelf.by("forms", "method_verbs.csv", MethodVerb, check)


@dataclass(frozen=True, slots=True, kw_only=True)
class StageWord(Sourced):
    """Words that a course has for a stage, and by which a sentence of a method alone tells none."""

    words: tuple[str, ...]
    stage: str
    "A name of stages.csv."
    place: str = ""
    "Where it happens by its name alone."


@dataclass(frozen=True, slots=True, kw_only=True)
class CalledStage:
    """What a word for a stage means in a course."""

    stage: str
    "A name of stages.csv, or `smoke`, which the temperature decides."
    place: str = ""


def read_stage_words(
    shelf: Shelf, stages: Collection[str], places: Collection[str], verbs: Mapping[str, MethodVerb]
) -> dict[str, CalledStage]:
    """What can stand as a stage in a course: the stages themselves, verbs of a method in any form, other words."""
    forms = {form: verb for verb in verbs.values() for form in (*verb.forms, *verb.done, *verb.going)}

    def check(word: StageWord) -> None:
        if word.stage not in stages:
            raise Wrong(f"unknown stage '{word.stage}'")
        if word.place and word.place not in places:
            raise Wrong(f"unknown place '{word.place}'")
        if known := [one for one in word.words if one in stages or one in forms]:
            raise Wrong(f"'{known[0]}' is known already")

    other = shelf.by("words", "stage_words.csv", StageWord, check)
    verbal = {form: verb for form, verb in forms.items() if verb.stage != BY_PLACE}
    return {
        **{word: CalledStage(stage=row.stage, place=row.place) for word, row in other.items()},
        **{form: CalledStage(stage=verb.stage, place=verb.place) for form, verb in verbal.items()},
        **{name: CalledStage(stage=name) for name in stages},
    }


def without_article(words: str) -> str:
    """Words as they are compared, without a leading article."""
    first, _, rest = normal(words).partition(" ")
    return rest if first in ARTICLES and rest else normal(words)


def read_named_boxes(
    shelf: Shelf, cautions: Collection[str], names: Mapping[str, Collection[str]]
) -> tuple[NamedBox, ...]:
    """The names that are enough for a box; `names` are those that are known, by the kind of name."""

    def check(box: NamedBox) -> None:
        if box.name not in names[box.by]:
            raise Wrong(f"unknown name '{box.name}'")
        if bool(box.message) != bool(box.hint):
            raise Wrong("a message needs a hint, and a hint a message")
        if box.by == "plant" and not box.in_lines:
            raise Wrong("a plant stands in a line and nowhere else")

    boxes = shelf.by(("by", "name"), "named_boxes.csv", NamedBox, check, slug=cautions, by=names)
    return tuple(boxes.values())
