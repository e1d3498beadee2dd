"""A paragraph of English in; its sentences, and the clauses of a sentence, out."""

from __future__ import annotations

import re
from collections.abc import Iterator

_END = re.compile(r"(?<![.!?])[.!?]++[\"')\]”’]*+(?=\s|$)")
_TITLES = frozenset(
    {"mr", "mrs", "ms", "dr", "st", "no", "nos", "vs", "e.g", "i.e", "eg", "ie", "approx", "ca", "fig"}
)
"Behind these a full stop ends no sentence, whatever follows."
_UNITS = frozenset(
    (
        *("lb", "lbs", "oz", "tbsp", "tbs", "tsp", "pt", "pts", "qt", "qts", "gal", "min", "mins", "hr"),
        *("hrs", "sec", "deg", "in", "ft", "pkg", "c", "f", "t", "doz", "sq", "temp", "avg", "wt", "vol"),
    )
)
"Behind these it ends one only before a capital letter."

_BREAK = re.compile(
    r"[;:—()]|(?<=\s)[–-](?=\s)|(?:,|(?<![\s,]))\s++\b(?:but|then|instead|otherwise|so|yet|and then)\b",
    re.IGNORECASE,
)
"Always between two clauses."
_COMMA = re.compile(r",\s*(?:and\s+|just\s+|simply\s+)?(?=([a-z']+))", re.IGNORECASE)
_IMPERATIVES = frozenset(
    (
        *("add", "age", "bag", "bake", "boil", "bottle", "bring", "brine", "brown", "bury", "can", "chill"),
        *("chop", "cook", "cool", "cover", "cure", "cut", "defrost", "dig", "discard", "drain", "drop"),
        *("dry", "eat", "ferment", "fill", "find", "finish", "fish", "flip", "freeze", "fry", "gather"),
        *("get", "give", "go", "grill", "grind", "hang", "have", "heat", "hold", "infuse", "inject", "jar"),
        *("keep", "ladle", "lay", "leave", "let", "lift", "lower", "make", "marinate", "mix", "move"),
        *("pack", "pat", "pick", "place", "plunge", "poach", "pop", "pour", "press", "process", "pull"),
        *("put", "raise", "reheat", "rest", "return", "rinse", "roast", "rub", "salt", "seal", "sear"),
        *("serve", "set", "simmer", "skim", "slice", "slide", "smoke", "soak", "spoon", "stand", "steam"),
        *("steep", "stir", "stow", "strain", "stuff", "submerge", "take", "taste", "thaw", "throw", "toss"),
        *("turn", "use", "warm", "wash", "watch", "wipe", "wrap", "you", "we", "i", "it", "they", "she"),
        "he",
    )
)
"Words with which a new clause begins behind a comma: orders of the trade, and pronouns. Source: words of the trade."


def sentence_spans(text: str) -> Iterator[tuple[int, int]]:
    """Begin and end of each sentence of one paragraph, without the spaces around it."""
    begin = 0
    for end in _END.finditer(text):
        if _ends(text, begin, end):
            yield from _stripped(text, begin, end.end())
            begin = end.end()
    yield from _stripped(text, begin, len(text))


def _ends(text: str, begin: int, end: re.Match[str]) -> bool:
    if not end.group().startswith("."):
        return True
    word = text[max(begin, end.start() - 12) : end.start()].rpartition(" ")[2].lower().lstrip("(")
    following = text[end.end() :].lstrip()[:1]
    if word in _TITLES or not following:
        return not following
    # `1 qt. water` goes on; `1 qt. Stir` and `at 180 °F. Stir` do not: only what begins with a capital begins anew.
    return following.isupper() or (word not in _UNITS and not following.islower())


def _stripped(text: str, begin: int, end: int) -> Iterator[tuple[int, int]]:
    words = text[begin:end]
    start = begin + len(words) - len(words.lstrip())
    stop = start + len(words.strip())
    if stop > start:
        yield start, stop


def clause_of(text: str, start: int) -> tuple[int, int]:
    """The clause of a sentence in which an offset stands.

    A comma parts two clauses only where an order or a pronoun stands behind it: a denial reaches over `in the sink, on
    the porch or in warm water`, and not over `don't rush, leave it out`.
    """
    begin, end = 0, len(text)
    for found in _BREAK.finditer(text):
        begin, end = _narrowed(found.start(), found.end(), start, begin, end)
    for found in _COMMA.finditer(text):
        if found.group(1).lower() in _IMPERATIVES:
            begin, end = _narrowed(found.start(), found.end(), start, begin, end)
    return begin, end


def _narrowed(at: int, behind: int, start: int, begin: int, end: int) -> tuple[int, int]:
    if behind <= start:
        return max(begin, behind), end
    return begin, min(end, at) if at > start else end
