"""The closed lists of words that several tables share; stages.csv and named_boxes.csv in, their rows out."""

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
