# ruff: noqa: E501
"""Words of a method in; its sentences and clauses, and whether an act in them is turned down, out. English alone.

Nothing here knows what is dangerous. An act is a stretch of a sentence; what is asked is whether the cook is told to do
it, or told not to, told of it as a mistake, or told what to do when it has happened.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

__all__ = ["clause_of", "is_turned_down", "sentence_spans"]

_END = re.compile(r"(?<![.!?])[.!?]++[\"')\]”’]*+(?=\s|$)")
_TITLES = frozenset(
    {"mr", "mrs", "ms", "dr", "st", "no", "nos", "vs", "e.g", "i.e", "eg", "ie", "approx", "ca", "fig"}
)
"Behind these a full stop ends no sentence, whatever follows."
_UNITS = frozenset(
    {
        "lb",
        "lbs",
        "oz",
        "tbsp",
        "tbs",
        "tsp",
        "pt",
        "pts",
        "qt",
        "qts",
        "gal",
        "min",
        "mins",
        "hr",
        "hrs",
        "sec",
        "deg",
    }
    | {"in", "ft", "pkg", "c", "f", "t", "doz", "sq", "temp", "avg", "wt", "vol"}
)
"Behind these it ends one only before a capital letter."

_BREAK = re.compile(
    r"[;:—()]|(?<=\s)[–-](?=\s)|(?:,|(?<![\s,]))\s++\b(?:but|then|instead|otherwise|so|yet|and then)\b",
    re.IGNORECASE,
)
"Always between two clauses."
_COMMA = re.compile(r",\s*(?:and\s+|just\s+|simply\s+)?(?=([a-z']+))", re.IGNORECASE)
_IMPERATIVES = frozenset(
    [
        "add",
        "age",
        "bag",
        "bake",
        "boil",
        "bottle",
        "bring",
        "brine",
        "brown",
        "bury",
        "can",
        "chill",
        "chop",
        "cook",
        "cool",
        "cover",
        "cure",
        "cut",
        "defrost",
        "dig",
        "discard",
        "drain",
        "drop",
        "dry",
        "eat",
        "ferment",
        "fill",
        "find",
        "finish",
        "fish",
        "flip",
        "freeze",
        "fry",
        "gather",
        "get",
        "give",
        "go",
        "grill",
        "grind",
        "hang",
        "have",
        "heat",
        "hold",
        "infuse",
        "inject",
        "jar",
        "keep",
        "ladle",
        "lay",
        "leave",
        "let",
        "lift",
        "lower",
        "make",
        "marinate",
        "mix",
        "move",
        "pack",
        "pat",
        "pick",
        "place",
        "plunge",
        "poach",
        "pop",
        "pour",
        "press",
        "process",
        "pull",
        "put",
        "raise",
        "reheat",
        "rest",
        "return",
        "rinse",
        "roast",
        "rub",
        "salt",
        "seal",
        "sear",
        "serve",
        "set",
        "simmer",
        "skim",
        "slice",
        "slide",
        "smoke",
        "soak",
        "spoon",
        "stand",
        "steam",
        "steep",
        "stir",
        "stow",
        "strain",
        "stuff",
        "submerge",
        "take",
        "taste",
        "thaw",
        "throw",
        "toss",
        "turn",
        "use",
        "warm",
        "wash",
        "watch",
        "wipe",
        "wrap",
        "you",
        "we",
        "i",
        "it",
        "they",
        "she",
        "he",
    ]
)
"Words with which a new clause begins behind a comma: orders of the trade, and pronouns. Source: words of the trade."

_DENIAL = re.compile(
    r"\b(?:never|not|cannot|no|without|avoid(?:s|ed|ing)?|stop(?:s|ped)?|nor|neither|instead of|rather than|in place of|unlike|"
    r"as opposed to|against|forbid(?:s|den)?|refuse(?:s|d)? to|quit|resist|skip|beware of|nobody|no one|nothing|none)\b|"
    r"\b(?:do|does|did|is|was|are|were|would|should|could|must|have|has|had|ca|wo|need|ai)n['’]?t\b|\bdont\b",
    re.IGNORECASE,
)
_NO_DENIAL = re.compile(
    r"\bnot only\b|\b(?:do not|don['’]t|never) (?:forget|hesitate|worry|be (?:afraid|shy|scared))\b|\bno (?:need|trouble|matter|"
    r"problem|worries|harm|fuss|more than|less than|later than|sooner than|longer than \d|hotter than)\b|\bnot (?:necessary|bad|a "
    r"problem|to worry|too|very|quite|yet|all|more than|less than|long)\b|\bnothing (?:wrong|bad|better|like|to it)\b|\bno (?:salt|"
    r"sugar|bones?|fat|skin|lid|water|vinegar|nitrite|nitrates?)\b|\bwithout (?:the |a |any )?(?:lid|cover|skin|bones?|fuss|"
    r"trouble|fail|salt|sugar|cooking|heating|washing|trouble|turning|peeling|stirring|thawing)\b|"
    r"\b(?:do not|don['’]t|never) (?:bother|fuss|refrigerate|chill|worry|cook it (?:through|long)|overcook|peel|wash|trim)\b|"
    r"\bcan['’]?t (?:go wrong|wait|beat|miss)\b|\bnever (?:fails?|made|hurt|killed|had)\b|\bagainst the\b",
    re.IGNORECASE,
)
"""Beginnings that look like a denial and tell the cook to go on, or that are part of the hazard itself."""

_PAST = re.compile(
    r"\b(?:used to|in (?:the|those) (?:old|olden) days|years ago|once|back then|grand(?:ma|pa|mother|father|dad|pap|daddy)s?|granny|"
    r"nana|uncle|aunt|auntie|mother|father|mom|mum|dad|pa|my (?:brother|sister|cousin|neighbou?r)|old (?:books?|timers?|cards?)|"
    r"old-timers?|some (?:people|folks?|say|do|leave)|people|folks?|it was thought|they (?:say|said|did)|we did|(?:he|she|they) (?:\w+ed|always|never|would|left|kept|put|let|ate|set|had|made|did|hung|took|swore|drank|ran|stood|thought|got|sat|cut|went|spread|sold|fed|brought|gave|found|dug|froze|threw|hid|built|buried)|everybody|"
    r"everyone|the (?:year|summer|winter|time|day) (?:we|i|he|she|they|my|our)|(?:i|we) (?:know|knew|heard|read) of|(?:was|were) (?:raised|taught|told) to|"
    r"(?:old )?(?:yarn|tale|story|stories)|in (?:18|19)\d\d|(?:we|i) (?:would|left|kept|put|let|ate|drank|took|had|made|set|tried|\w+ed)|cards? (?:in|from|of|says?|calls?|wants?)|the (?:old|original) (?:card|recipe|way|book))\b",
    re.IGNORECASE,
)
_TURN = re.compile(
    r"\b(?:no longer|not any ?more|wrong|unsafe|dangerous|foolish|mistake|lucky|luck|sick|ill|poison(?:ed|s|ing)?|hospital|threw|thrown|"
    r"throw|learned|learnt|nowadays|these days|today|stopped|regret(?:ted)?|hazard|risk|risky|warn(?:s|ed|ing)?|spoil(?:ed|t|s)?|"
    r"botulism|died|killed|kills|know better|knows better|don['’]t|do not|never|didn['’]t|won['’]t|wouldn['’]t|shouldn['’]t|isn['’]t|"
    r"must not|cannot|crossed (?:it |that |them )?out|no business|far more than|leave (?:it|that|them) out(?=[.:;,!])|ruined|rotted|was down|were down|never (?:got|came) home|ended (?:up )?(?:in|on) (?:an?|the) (?:ward|hospital|bed)|deadly|germs|in the ground|br(?:eak|oke) (?:me|us|her|him) of|"
    r"gave (?:its|his|her|the|all|half)\b|trash|bad idea|changed|we now|i now|now (?:we|i|it|they|he|she|everything)|discard(?:ed)?|outlawed|not safe|isn['’]t safe)\b",
    re.IGNORECASE,
)
_CONSEQUENCE = re.compile(
    r"\bif\b.{0,80}?\b(?:throw|discard|toss|bin|out (?:it|they) goes?|do not (?:eat|use|taste)|don['’]t (?:eat|use|taste)|compost|bury|"
    r"is (?:unsafe|spoiled|ruined)|burn it|feed it to)\b|"
    r"\b(?:throw (?:it |them |that |any |the )?(?:\w+ )?(?:out|away)|discard|toss out|is thrown out)\b.{0,80}?\b(?:if|that|which|any)\b",
    re.IGNORECASE,
)
_AFTER = re.compile(
    r"\b(?:(?:is|are|was|were|would be|can be) (?:not |never )?(?:a (?:mistake|bad idea|risk|hazard|danger)|safe|allowed|unsafe|dangerous|"
    r"deadly|wrong|forbidden|out|how (?:people|folks)|asking for)|(?:kills?|poisons?|makes? (?:you|people|folks|us|them) (?:ill|sick)|"
    r"made (?:us|him|her|them|everyone|the whole \w+) (?:ill|sick)|sickens?|can kill|ha(?:s|ve) (?:killed|poisoned)|put (?:\w+ ){1,4}in (?:the ground|hospital|the hospital)|will (?:spoil|sour|kill|poison)|breeds?|gives? "
    r"(?:you|people) botulism|won['’]t do|will not do|isn['’]t safe|is no (?:way|process|substitute)|does not (?:make|kill|count)|"
    r"doesn['’]t (?:make|kill|count)))\b",
    re.IGNORECASE,
)
_SAFE_VERDICT = re.compile(
    r"\b(?:is|are|was|were) (?:perfectly |quite |always |still )?(?:safe|allowed|fine)\b", re.IGNORECASE
)
"What `is safe` says is no warning, `is not safe` is."
_GRAVE = re.compile(
    r"\b(?:sick|ill|poisoned|died|hospital|botulism|killed)\b|\bended (?:up )?(?:in|on) (?:an?|the) (?:ward|hospital|bed)\b",
    re.IGNORECASE,
)
"What a story that ends badly says before its act too: `the year the choir got sick, somebody had ...`."
_CLAIM = re.compile(
    r"\b(?:kill(?:s|ed)?|destroy(?:s|ed)?|gets? rid of|tak(?:es?|ing)|took|remov(?:es?|ed)|draws?|drives?|cooks?|boils?|stops?|against|"
    r"no|any|nobody|no one|not one|never|none)\b(?: \w+){0,4} (?:germs?|botulism|poisons?|worms?|parasites?|bugs?|toxins?|sick|ill|"
    r"hurt|harm|died|killed|poisoned)\b",
    re.IGNORECASE,
)
"Says that what is told does no harm, or cures; that is praise of it. Source: words of the trade."
_LOOK_ALIKE = re.compile(
    r"\b(?:looks? (?:just |much |a lot |exactly )?like|look-?alikes?|resembl\w+|mistak(?:e|en) (?:it |them )?for|confus(?:e|ed|es) "
    r"(?:it |them )?with|take[ns]? (?:it |them )?for|took (?:\w+ ){1,6}for (?:it|them|ramps|ramsons|wild garlic|parsnips?|carrots?)|not to be confused|(?:check|make sure|be (?:sure|certain)|certain|sure)\b.{0,40}"
    r"\b(?:no|not|none|never|isn['’]t|aren['’]t)|grows? (?:beside|with|among|near)|tell (?:it|them) (?:apart )?from|apart from|unlike|"
    r"cousins? of|family of|instead of|in place of)\b",
    re.IGNORECASE,
)


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


def is_turned_down(text: str, start: int, end: int, *, following: str = "", is_name: bool = False) -> bool:
    """True where an act (or, with `is_name`, the naming of a thing) in a sentence is not what the cook is told to do.

    `following` is the next sentence: a story is turned down there as often as in its own.
    """
    begin, stop = clause_of(text, start)
    if _denied(text[begin:start]) or _verdict(text[end:stop]) or _verdict(text[end:]):
        return True
    # What is thrown away if it happened stands behind the if or the throwing; what stands before is done.
    remedy = _CONSEQUENCE.search(text)
    if remedy is not None and start >= remedy.start():
        return True
    if is_name and _LOOK_ALIKE.search(text):
        return True
    return _PAST.search(text) is not None and (
        _turns(text[end:], following) or _GRAVE.search(_CLAIM.sub(" ", text[:start])) is not None
    )


def _denied(before: str) -> bool:
    """A denial before the act, in its clause; what only sounds like one is taken out first."""
    return _DENIAL.search(_NO_DENIAL.sub(" ", before)) is not None


def _verdict(behind: str) -> bool:
    """A verdict behind the act: `... is unsafe`, `... kills`."""
    found = _AFTER.search(_CLAIM.sub(" ", behind))
    return found is not None and not _SAFE_VERDICT.fullmatch(found.group())


def _turns(rest: str, following: str) -> bool:
    """The rest of the sentence or the next one turns a story down; praise of it, and a claim that it cures, do not."""
    return any(_TURN.search(_NO_DENIAL.sub(" ", _CLAIM.sub(" ", words))) for words in (rest, following))
