"""The text of an old card in, as somebody typed it off, its parts out: title, whose it is, what it makes, lines, method.

Nothing is worked out and no word is dropped: what is none of the parts that have a key stays in the method, as typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from generator.model.quantity import Dimension
from generator.read.grammar import Grammar
from generator.read.number import NUMBER_WORDS, AmountError
from generator.read.quantity import parse_amount, read_amount

_ORDERS = frozenset(
    (
        *("add", "arrange", "bake", "baste", "beat", "blanch", "blend", "boil", "bone", "bottle", "bring"),
        *("brown", "chill", "chop", "clean", "combine", "cook", "cool", "cover", "crush", "cut"),
        *(
            "dice",
            "dip",
            "dissolve",
            "do",
            "drain",
            "dredge",
            "drop",
            "dump",
            "fill",
            "fold",
            "form",
            "freeze",
        ),
        *(
            "fry",
            "grate",
            "grease",
            "grind",
            "hang",
            "heat",
            "inject",
            "keep",
            "keeps",
            "knead",
            "lay",
            "let",
        ),
        *(
            "line",
            "make",
            "marinate",
            "mash",
            "melt",
            "mix",
            "parboil",
            "pat",
            "peel",
            "pick",
            "place",
            "plunge",
        ),
        *("pour", "preheat", "process", "punch", "put", "reheat", "remove", "repeat", "rinse", "roll", "rub"),
        *("saute", "sauté", "scald", "scrape", "seal", "sear", "serve", "set", "shake", "shape", "sift"),
        *("simmer", "skim", "skin", "slice", "soak", "soften", "spread", "sprinkle", "steam", "steep"),
        *("sterilize", "stir", "store", "strain", "stuff", "take", "thicken", "toast", "top", "toss", "turn"),
        *("use", "warm", "wash", "weigh", "whip", "wipe", "work", "wrap", "after", "then", "when", "while"),
    )
)
"Words with which a sentence of a method begins, and no name of a thing to fetch. Source: words of the trade."
_LIKE_THINGS = frozenset(
    ("brine", "can", "cure", "dry", "fish", "pack", "press", "rest", "roast", "salt", "season", "smoke")
)
"The same where many words follow: `salt pork` is a thing."
_CREAM = re.compile(
    r"cream (?:the|in|together|butter|sugar|shortening|lard|oleo|marg|fat|well)", re.IGNORECASE
)
"`Cream the butter` is done, `cream, if you have it` is fetched."
MANY_WORDS = 6
LONG = 90
"Characters; no line of a card that names one thing is longer. Source: house."

_LEADER = re.compile(r"(?:[ ]?[.…_]){3,}[ ]*|(?:[ ]-){2,}[ ]+|-{3,}[ ]*")
"Dots or a rule from a name to its amount."
_WIDE = re.compile(r"\t+|[ ]{3,}")
"Between two columns."
_BULLET = re.compile(r"(?:[-*•·▪]|\[[ xX]?\])\s+")
_STEP = re.compile(r"\d{1,2}[.)]\s+(?=\D)")
_OVEN = re.compile(r"[1-5]\d\d\s*(?:°|º|deg|[FC]\b|[-–]|for\b|oven)", re.IGNORECASE)
"`375 - 30 min`: a heat, not so many of something."
_BREAK = re.compile(r"[^\W\d]{3,}[.;] +[A-Z]")
"A sentence ends and another begins."
_ARTICLE = re.compile(r"an?\b", re.IGNORECASE)
"`A cup of milk` is a thing, `A good cake` is not."
_TIME = re.compile(r"[\d½¼¾ /–-]+(?:to \d+ )? ?(?:min|hr|hour|day|week|wk)", re.IGNORECASE)
_SHORTENED = frozenset(
    ("cinn.", "choc.", "marg.", "evap.", "cond.", "gran.", "chop.", "pwdr.", "powd.", "tbls.", "tbsp.")
)
"Words of four letters whose point belongs to them."
_RULE = re.compile(r"[-=_*~. ]+")
_HEADING = re.compile(r"(?P<title>[^\d:]{2,40}):")
_LABELS = re.compile(
    r"(?:(?:ingredients|directions|method|instructions|recipe|procedure|weights?|measures?|amounts?|quantity)\b\s*:?\s*)+",
    re.IGNORECASE,
)
_ORDERED_HEADS = re.compile(r"(?:directions|method|instructions|procedure)\s*:?", re.IGNORECASE)

_NUMBER = rf"(?:\d|(?:{'|'.join(NUMBER_WORDS)}|half|a dozen)\b)"
_HOW = rf"\s*:?\s*(?P<how>(?:(?:about|abt\.?|approx\.?) )?{_NUMBER}.*?)[.]?"
_SERVES = re.compile(rf"(?:it )?(?:serves?|feeds|servings|portions)\b{_HOW}", re.IGNORECASE)
_PORTIONS = re.compile(
    r"(?:(?:makes|yields?)\s*:?\s*)?(?P<how>\d.*?)\s*(?:servings|portions|people)[.]?", re.IGNORECASE
)
_MAKES = re.compile(rf"(?:it )?(?:makes?|yields?)\b{_HOW}", re.IGNORECASE)
_YIELD = re.compile(
    rf"(?:^|(?<=[.!)] ))(?P<yield>(?:It )?(?:Serves|Feeds|Makes|Yields?)\b:? (?:about |abt\.? )?{_NUMBER}.*?)"
    r"(?:[.!]?$|[.!] (?=[A-Z]))",
    re.IGNORECASE,
)
"A sentence of the method that says how much it makes."
_COUNTED = re.compile(rf"(?:{_NUMBER}|an?\b|few\b|[½¼¾⅓⅔⅛])", re.IGNORECASE)

_KITCHEN = re.compile(
    r"(?:recipe )?from (?:the )?kitchen of\s*:?\s*(?P<who>.*)|from\s*:\s*(?P<from>.+)", re.IGNORECASE
)
_TITLE_LABEL = re.compile(
    r"(?:recipe(?: for)?|title|name|dish|here['’]s what['’]s cook\w*['’]?)\s*:\s*", re.IGNORECASE
)
"Words that are printed on a card before its title."
_NAMED = re.compile(r"[^\d:]{2,60}: ")
"A title before a recipe that runs on behind it."
_SOMEBODY = re.compile(
    r"\b(?:aunt|auntie|uncle|grand[a-z]+|gran|granny|nana|mother|mom|mama|dad|father|papa|cousin|sister|mrs|mr|miss|dr)\b"
    r"|['’]s\b|['’]\d\d\b|\b1[789]\d\d\b|\b20\d\d\b",
    re.IGNORECASE,
)
_DATE = re.compile(
    r"(?:[A-Za-z]{3,9}\.? )?(?:\d{1,2},? )?(?:1[789]|20)\d\d|\d{1,2}[/-]\d{1,2}[/-](?:\d\d){1,2}"
)
_NAMES_SOMEBODY = re.compile(r"from (?P<who>[A-Z].*)|[-–—~]+ ?(?P<signed>[A-Z].*)")
_EACH = re.compile(r"(?P<amount>[^,]+?) each (?:of )?(?P<names>[^\d,()]+(?:, [^\d,()]+)*)", re.IGNORECASE)
_AND = re.compile(r",? and |,? & |, ")


@dataclass(frozen=True, slots=True)
class CardLine:
    """One thing to fetch."""

    words: str
    "As typed, its columns in order."
    group: str = ""


@dataclass(slots=True)
class Card:
    """What stands on a card."""

    name: str = ""
    origin: list[str] = field(default_factory=list)
    serves: str = ""
    makes: str = ""
    lines: list[CardLine] = field(default_factory=list)
    method: list[list[str]] = field(default_factory=list)
    "Paragraphs, each in its lines."


def read_card(text: str, grammar: Grammar) -> Card:
    """The parts of a card; without a name where the text has no words."""
    return _Reader(grammar).read(text)


@dataclass(slots=True)
class _Reader:
    """Goes down a card line by line: after the title things to fetch, then what is done with them."""

    grammar: Grammar
    card: Card = field(default_factory=Card)
    group: str = ""
    in_method: bool = False

    def read(self, text: str) -> Card:
        blocks = list(_blocks(text))
        if blocks:
            self._title(blocks[0].pop(0))
        for number, block in enumerate(blocks):
            self._block(block, is_head=number == 0, is_last=number == len(blocks) - 1)
        return self.card

    def _title(self, line: str) -> None:
        if self._whose(line):
            return
        label = _TITLE_LABEL.match(line)
        parts = _WIDE.split(line[label.end() :] if label else line)
        name, *beside = (part.strip() for part in parts if part.strip()) if line else ("",)
        if len(name) > LONG:
            name, _, sentences = name.partition(": ") if _NAMED.match(name) else ("", "", name)
            self.card.method.append([sentences])
        for part in beside:
            if not self._whose_or_how_many(part):
                name += f" {part}"
        self.card.name = self._name(name)

    def _name(self, title: str) -> str:
        """The name alone; who or when behind a bracket, a dash or a comma goes to the origin."""
        bracket = re.fullmatch(r"(?P<name>.+?)\s*\((?P<who>[^()]+)\)", title)
        if bracket and (_SOMEBODY.search(bracket["who"]) or bracket["who"][0].isupper()):
            self._from(bracket["who"])
            title = bracket["name"]
        for sign in (" - ", " – ", " — ", " -- ", ", "):
            before, found, behind = title.rpartition(sign)
            if found and before and _SOMEBODY.search(behind):
                self._from(behind)
                title = before
        title = title.strip().removesuffix(".").strip()
        return title.capitalize() if title.isupper() else title

    def _from(self, who: str) -> None:
        who = who.strip(" .,;:-–—_")
        if who and who not in self.card.origin:
            self.card.origin.append(who)

    def _whose(self, line: str) -> bool:
        """Takes the line of a printed card for who gave the recipe."""
        found = _KITCHEN.fullmatch(line)
        if found:
            self._from(found["who"] or found["from"] or "")
        return found is not None

    def _whose_or_how_many(self, line: str) -> bool:
        """Takes a line, or a column, that says how much it makes or whose it is."""
        for key, pattern in (("serves", _SERVES), ("serves", _PORTIONS), ("makes", _MAKES)):
            found = pattern.fullmatch(line)
            if found and not getattr(self.card, key):
                setattr(self.card, key, found["how"].strip())
                return True
        named = _NAMES_SOMEBODY.fullmatch(line)
        if self._whose(line):
            return True
        if _DATE.fullmatch(line.strip("()")):
            self._from(line.strip("()"))
        elif named and len(line.split()) <= MANY_WORDS:
            self._from(named["who"] or named["signed"] or "")
        else:
            return False
        return True

    def _block(self, block: list[str], *, is_head: bool, is_last: bool) -> None:
        mostly_things = self._lists(block)
        self.in_method = self.in_method and not mostly_things
        paragraph: list[str] = []
        for number, line in enumerate(block):
            alone = is_head and number == 0
            if self._aside(line, is_head=alone, is_signature=is_last and number >= len(block) - 2):
                continue
            if not self.in_method and self._is_thing(line, mostly_things=mostly_things):
                self.card.lines += [CardLine(words, self.group) for words in self._things(line)]
                continue
            self.in_method = bool(self.card.lines)
            paragraph.append(self._without_yield(line))
        if any(paragraph):
            self.card.method.append([line for line in paragraph if line])

    def _aside(self, line: str, *, is_head: bool, is_signature: bool) -> bool:
        """Takes what is neither a thing nor a step."""
        if not self.card.name and not self._whose_or_how_many(line):
            self.card.name = self._name(line)
            return True
        bracket = re.fullmatch(r"\((?P<who>[^()]+)\)", line)
        if is_head and bracket:
            self._from(bracket["who"])
            return True
        if self._whose_or_how_many(line):
            return True
        if is_signature and self.in_method and _is_signature(line):
            self._from(line)
            return True
        if _LABELS.fullmatch(line):
            self.in_method = self.in_method or bool(_ORDERED_HEADS.fullmatch(line))
            return True
        heading = _HEADING.fullmatch(line)
        if heading and not self.in_method:
            self.group = heading["title"].strip()
        return heading is not None and not self.in_method

    def _without_yield(self, line: str) -> str:
        found = _YIELD.search(line)
        if found and self._whose_or_how_many(found["yield"]):
            return f"{line[: found.start()]}{line[found.end() :]}".strip()
        return line

    def _begins_with_amount(self, line: str) -> bool:
        """A number of something, not of minutes, degrees or a step; a pinch."""
        bullet = _BULLET.match(line)
        line = line[bullet.end() :] if bullet else line
        line = _ordered(line, self.grammar)
        if _STEP.match(line) or _OVEN.match(line) or _TIME.match(line):
            return False
        try:
            found = read_amount(line, 0, self.grammar)
        except AmountError:
            return bool(_COUNTED.match(line))
        if _ARTICLE.match(line):
            return found is not None and found[0].dimension is not Dimension.COUNT
        return found is not None or bool(_COUNTED.match(line))

    def _is_thing(self, line: str, *, mostly_things: bool) -> bool:
        if _is_prose(line):
            return False
        return self._begins_with_amount(line) or (mostly_things and not _is_order(line))

    def _lists(self, block: list[str]) -> bool:
        """True where most lines begin with an amount; above the method one is enough, if none reads like a sentence."""
        counted = sum(map(self._begins_with_amount, block))
        if 2 * counted >= len(block):
            return True
        is_first = not self.card.lines and not self.card.method
        return is_first and counted > 0 and not any(_is_prose(line) or _is_order(line) for line in block)

    def _things(self, line: str) -> Iterator[str]:
        """The things of a line: two columns are two, and so are `1 tsp each cloves and cinnamon`."""
        bullet = _BULLET.match(line)
        line = line[bullet.end() :] if bullet else line
        columns = [part.strip() for part in _WIDE.split(line) if part.strip()]
        if len(columns) < 2 or not all(map(self._begins_with_amount, columns)):
            columns = [_ordered(line, self.grammar)]
        for column in columns:
            yield from _each(_ended(column), self.grammar)


def _blocks(text: str) -> Iterator[list[str]]:
    """Lines that stand together; a rule between them is none."""
    block: list[str] = []
    for line in text.split("\n"):
        line = line.strip()
        if line and not _RULE.fullmatch(line):
            block.append(line)
        elif block:
            yield block
            block = []
    if block:
        yield block


def _is_prose(line: str) -> bool:
    """A step, a time, a heat, or more than one sentence."""
    if len(line) > LONG or any(found.match(line) for found in (_STEP, _OVEN, _TIME)):
        return True
    return any(_is_order(line[found.end() - 1 :]) or not line[0].isdigit() for found in _BREAK.finditer(line))


def _is_order(line: str) -> bool:
    words = re.findall(r"[^\W\d_]+", line.lower())
    first = words[0] if words else ""
    return (
        first in _ORDERS
        or (first in _LIKE_THINGS and len(words) > MANY_WORDS)
        or _CREAM.match(line) is not None
    )


def _is_signature(line: str) -> bool:
    """Who wrote it, or when, in the last line."""
    return len(line.split()) <= MANY_WORDS and bool(_SOMEBODY.search(line)) and line[:1].isupper()


def _ordered(line: str, grammar: Grammar) -> str:
    """`Beans, navy . . . . 10 lb` with its amount first; `Flour    2 lb    2 qt` is `2 lb (2 qt) Flour`."""
    for between in (_LEADER, _WIDE):
        name, *amounts = [part.strip() for part in between.split(line) if part.strip()] or [""]
        if amounts and _is_amount(amounts[0], grammar) and not _is_amount(name, grammar):
            second = amounts[1] if len(amounts) == 2 else ""
            if second and _is_amount(second, grammar):
                return f"{amounts[0]} ({second}) {name}"
            return ", ".join((f"{amounts[0]} {name}", *amounts[1:]))
    return " ".join(line.split())


def _is_amount(text: str, grammar: Grammar) -> bool:
    try:
        parse_amount(text, grammar)
    except AmountError:
        return False
    return True


def _ended(line: str) -> str:
    """Without the comma or the full stop of a list; the point of `1 tsp. cinn.` stays."""
    line = line.rstrip(" ,;")
    last = line.rpartition(" ")[2].lower()
    is_word = re.fullmatch(r"[^\W\d_]{4,}\.", last) is not None and last not in _SHORTENED
    return line[:-1] if is_word else line


def _each(line: str, grammar: Grammar) -> Iterator[str]:
    found = _EACH.fullmatch(line)
    names = _AND.split(found["names"]) if found else []
    if found and len(names) > 1 and _is_amount(found["amount"], grammar):
        yield from (f"{found['amount']} {name.strip()}" for name in names)
    else:
        yield line
