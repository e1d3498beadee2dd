"""A word in, the word that stands for its singular and all of its spellings out: berries and berry are both berry.

Not a dictionary form: table and text go through the same function, so that only what must differ has to differ.
"""

from __future__ import annotations

import functools

IRREGULAR = {
    **{"geese": "goose", "feet": "foot", "teeth": "tooth", "mice": "mouse", "lice": "louse", "oxen": "ox"},
    **{"muskoxen": "muskox", "fungi": "fungus", "cacti": "cactus", "octopi": "octopus", "men": "man"},
    **{"women": "woman", "children": "child", "emus": "emu", "gnus": "gnu", "ahis": "ahi", "kiwis": "kiwi"},
    **{"caribous": "caribou", "chilis": "chili", "mahis": "mahi", "wapitis": "wapiti", "okapis": "okapi"},
    **{"porcini": "porcino", "porcinis": "porcino", "calamaris": "calamari", "does": "does"},
}
"does is the verb: whoever writes of several does has deer or venison beside them."
SPELLINGS = {
    **{"grey": "gray", "sulphur": "sulfur", "mold": "mould", "moldy": "mouldy", "fibre": "fiber"},
    **{"colour": "color", "flavour": "flavor", "filet": "fillet", "charr": "char", "racoon": "raccoon"},
    **{"widgeon": "wigeon", "sumach": "sumac", "lupine": "lupin"},
}
"Spellings of one word on both sides of the ocean."
F_WORDS = ("lea", "loa", "cal", "hal", "wol", "shel", "thie", "hoo", "shea", "bee")
"Words whose plural turns f into v: leaves, wolves. Olives and chives are not among them."
FE_WORDS = ("kni", "li", "wi")
SHORT = 3
"Pie, tie, die and axe keep their e; cookie and cooky are one."
LONG = 5
"Sloe and canoe keep their e; potatoes and mistletoes lose one alike."
SILENT = ("sse", "che", "she", "xe")
"Endings whose e is not compared, since -es may be their plural or that of a word without it: quiches, peaches."
SHORTEST = 3
"Gas, has and its are no plurals."


@functools.lru_cache(maxsize=16384)
def stem(word: str) -> str:
    """A word, in lower case, as it is compared."""
    single = IRREGULAR.get(word) or _singular(word)
    single = SPELLINGS.get(single, single)
    if len(single) <= SHORT:
        return single
    if single.endswith(SILENT) or (single.endswith("oe") and len(single) > LONG):
        return single[:-1]
    return f"{single[:-2]}y" if single.endswith("ie") else single


def _singular(word: str) -> str:
    if len(word) <= SHORTEST or word[-1] != "s" or word[-2] in "sui":
        return word
    if word.endswith("es"):
        return _without_es(word[:-2])
    return word[:-1]


def _without_es(stump: str) -> str:
    """What is left of -es: berri, leav, fox, potato; all else loses only its s."""
    if stump[-1] == "i" and len(stump) > 2:
        return f"{stump[:-1]}y"
    if stump[-1] == "v" and stump[:-1].endswith(F_WORDS):
        return f"{stump[:-1]}f"
    if stump[-1] == "v" and stump[:-1] in FE_WORDS:
        return f"{stump[:-1]}fe"
    if stump.endswith(("ss", "x", "tz", "ch", "sh")) or (
        stump.endswith("us") and stump[-3:] not in ("ous", "aus")
    ):
        return stump
    return stump if stump[-1] == "o" and len(stump) >= LONG else f"{stump}e"
