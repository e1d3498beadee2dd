"""The text of an old card in, as somebody typed it off, its parts out: title, whose it is, what it makes, lines, method.

Nothing is worked out and no word is dropped: what is none of the parts that have a key stays in the method, as typed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from generator.english import sentence_spans
from generator.model.quantity import Dimension
from generator.model.recipe import Ingredient
from generator.read.card_words import (
    ABOUT,
    AND,
    ARTICLE,
    BARE_HEADING,
    BREAK,
    BULLET,
    COUNTED,
    CREAM,
    DASH,
    DATE,
    EACH,
    FEW_WORDS,
    HEADING,
    HEAT,
    IN_A_ROW,
    IN_BRACKETS,
    KITCHEN,
    LABELS,
    LEADER,
    LIKE_THINGS,
    LONG,
    MAKES,
    MANY_WORDS,
    NAMED,
    NAMES_SOMEBODY,
    NUMBERED,
    ORDERED_HEADS,
    ORDERS,
    PORTIONS,
    RULE,
    SERVES,
    SHORTENED,
    SOMEBODY,
    SPACED_RANGE,
    STATE,
    STEP,
    TIME,
    TITLE_LABEL,
    WIDE,
    WORD_AND_POINT,
    YIELD,
)
from generator.read.grammar import Grammar
from generator.read.ingredient_line import parse_ingredient
from generator.read.number import AmountError
from generator.read.quantity import parse_amount, read_amount
from generator.read.text import Text


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
    remarks: list[str] = field(default_factory=list)

    def read(self, text: str) -> Card:
        blocks = list(_blocks(text))
        if blocks:
            self._title(blocks[0].pop(0))
        for number, block in enumerate(blocks):
            self._block(block, is_head=number == 0, is_last=number == len(blocks) - 1)
        self.card.method = [*([self.remarks] if self.remarks else []), *self.card.method]
        return self.card

    def _title(self, line: str) -> None:
        if self._whose(line):
            return
        label = TITLE_LABEL.match(line)
        parts = WIDE.split(line[label.end() :] if label else line)
        name, *beside = (part.strip() for part in parts if part.strip()) if line else ("",)
        if len(name) > LONG:
            name, _, sentences = name.partition(": ") if NAMED.match(name) else ("", "", name)
            self.card.method.append([sentences])
        for part in beside:
            if not self._whose_or_how_many(part):
                name += f" {part}"
        self.card.name = self._name(name)

    def _name(self, title: str) -> str:
        """The name alone; who or when behind a bracket, a dash or a comma goes to the origin."""
        bracket = IN_BRACKETS.fullmatch(title)
        if bracket and bracket["name"] and self._how_many(bracket["who"]):
            title = bracket["name"]
        elif bracket and bracket["name"] and _is_somebody(bracket["who"]):
            self._from(bracket["who"])
            title = bracket["name"]
        for sign in (" - ", " – ", " — ", " -- ", ", "):
            before, found, behind = title.rpartition(sign)
            if found and before and SOMEBODY.search(behind):
                self._from(behind)
                title = before
        before, _, behind = title.partition(". ")
        if before and SOMEBODY.search(behind):
            self._from(behind)
            title = before
        title = title.strip().removesuffix(".").strip()
        title = title[1:-1] if len(title) > 2 and title[0] in "\"'“" and title[-1] in "\"'”" else title
        return title.capitalize() if title.isupper() else title

    def _from(self, who: str) -> None:
        who = who.strip(" .,;:-–—_").removeprefix("from ")
        if who and who not in self.card.origin:
            self.card.origin.append(who)

    def _whose(self, line: str) -> bool:
        """Takes the line of a printed card for who gave the recipe."""
        found = KITCHEN.fullmatch(line)
        if found:
            self._from(found["who"])
        return found is not None

    def _how_many(self, line: str) -> bool:
        """Takes what says how much it makes."""
        serves, makes = SERVES.fullmatch(line) or PORTIONS.fullmatch(line), MAKES.fullmatch(line)
        if serves and not self.card.serves:
            self.card.serves = _amount_made(serves["how"])
        elif makes and not self.card.makes:
            self.card.makes = _amount_made(makes["how"])
        else:
            return False
        return True

    def _whose_or_how_many(self, line: str) -> bool:
        """Takes a line, or a column, that says how much it makes or whose it is."""
        if self._how_many(line):
            return True
        named = NAMES_SOMEBODY.fullmatch(line)
        if self._whose(line):
            return True
        if DATE.fullmatch(line.strip("()")):
            self._from(line.strip("()"))
        elif named and len(line.split()) <= MANY_WORDS:
            self._from(named["who"])
        else:
            return False
        return True

    def _block(self, block: list[str], *, is_head: bool, is_last: bool) -> None:
        block = _without_numbers(block)
        rest = self._first_sentence(block)
        mostly_things = rest == block and self._lists(block)
        block, self.in_method = rest, self.in_method and not mostly_things
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
        if not (self.card.name or self.card.method or self._whose_or_how_many(line)):
            self.card.name = self._name(line)
            return True
        bracket = IN_BRACKETS.fullmatch(line)
        if is_head and bracket and not bracket["name"]:
            self._beside_title(line, bracket["who"])
            return True
        if self._whose_or_how_many(line):
            return True
        if is_signature and self.in_method and _is_signature(line):
            self._from(line)
            return True
        if LABELS.fullmatch(line):
            self.in_method = self.in_method or bool(ORDERED_HEADS.fullmatch(line))
            return True
        heading = HEADING.fullmatch(line) or BARE_HEADING.fullmatch(line)
        is_title = heading is not None and not self.in_method and not self._begins_with_amount(line)
        if heading and is_title:
            self.group = heading["title"].strip()
        return is_title

    def _beside_title(self, line: str, words: str) -> None:
        """What stands in brackets under the title: how much, who, or a remark."""
        if self._how_many(words):
            return
        if _is_somebody(words) or words.istitle():
            self._from(words)
        else:
            self.remarks.append(line)

    def _without_yield(self, line: str) -> str:
        found = YIELD.search(line)
        if found and self._whose_or_how_many(found["yield"]):
            return f"{line[: found.start()]}{line[found.end() :]}".strip()
        return line

    def _begins_with_amount(self, line: str) -> bool:
        """A number of something, not of minutes, degrees or a step; a pinch."""
        bullet = BULLET.match(line)
        line = line[bullet.end() :] if bullet else line
        line = _ordered(line, self.grammar)
        if STEP.match(line) or HEAT.match(line) or TIME.match(line):
            return False
        try:
            found = read_amount(line, 0, self.grammar)
        except AmountError:
            return bool(COUNTED.match(line))
        if ARTICLE.match(line):
            return found is not None and found[0].dimension is not Dimension.COUNT
        return found is not None or bool(COUNTED.match(line))

    def _is_thing(self, line: str, *, mostly_things: bool) -> bool:
        if _is_prose(line):
            return False
        return self._begins_with_amount(line) or (mostly_things and not _is_order(line))

    def _lists(self, block: list[str]) -> bool:
        """True where most lines begin with an amount; above the method one is enough, if none reads like a sentence."""
        counted = sum(map(self._is_counted, block))
        if 2 * counted >= len(block):
            return True
        if self.card.lines or self.card.method or any(_is_prose(line) or _is_order(line) for line in block):
            return False
        return counted > 0 or (len(block) > 1 and all(FEW_WORDS.fullmatch(line) for line in block))

    def _is_counted(self, line: str) -> bool:
        """An amount stands first in it, or behind the name."""
        if self._begins_with_amount(line):
            return True
        if (
            self.card.method
            or line.endswith(".")
            or ARTICLE.match(line)
            or _is_prose(line)
            or _is_order(line)
        ):
            return False
        thing = read_thing(line, self.grammar)
        return thing is not None and thing.quantity is not None

    def _things(self, line: str) -> Iterator[str]:
        """The things of a line: two columns are two, and so are `1 tsp each cloves and cinnamon`."""
        bullet = BULLET.match(line)
        line = line[bullet.end() :] if bullet else line
        columns = next(filter(self._are_things, (WIDE.split(line), DASH.split(line), line.split(";"))), None)
        columns = _parts(columns) if columns else self._named_in_a_row(line) or [_ordered(line, self.grammar)]
        for column in columns:
            yield from _each(_ended(column), self.grammar)

    def _are_things(self, parts: list[str]) -> bool:
        """True for two and more, each with an amount and something besides: not for `1 goose, 6 - 8 lb`."""
        parts = _parts(parts)
        each = (self._begins_with_amount(part) and not _is_amount(part, self.grammar) for part in parts)
        return len(parts) > 1 and all(each)

    def _named_in_a_row(self, line: str) -> list[str]:
        """`1 c. sugar, 2 eggs, 1 c. flour` one by one; nothing for `3 onions, 2 sliced` and `1 goose, 8 lb dressed`."""
        parts = [part.strip(" .") for part in IN_A_ROW.split(line)]
        things = [read_thing(part, self.grammar) for part in parts]
        if not self._are_things(parts) or not all(things):
            return []
        later = [thing for thing in things[1:] if thing]
        is_cut = any(part.count("(") != part.count(")") for part in parts)
        if is_cut or any(STATE.fullmatch(thing.name.lower()) for thing in later):
            return []
        return parts if len(parts) > 2 or _is_measured(later[0]) else []

    def _first_sentence(self, block: list[str]) -> list[str]:
        """The lines without a first sentence that names the things one behind the other: two and more on each line."""
        text = "\n".join(block)
        begin, end = next(sentence_spans(text), (0, 0))
        things = self._named_in_a_row(" ".join(text[begin:end].split()))
        if not things or self.card.lines or len(things) < 2 * (1 + text.count("\n", begin, end)):
            return block
        self.card.lines = [CardLine(thing) for thing in things]
        self.in_method = True
        return [line for line in text[end:].strip().split("\n") if line]


def read_thing(words: str, grammar: Grammar) -> Ingredient | None:
    """The ingredient of a line; None where it cannot be read."""
    try:
        return parse_ingredient(Text(words, "card", (words,), 1, (0, 0)), grammar)
    except AmountError:
        return None


def _blocks(text: str) -> Iterator[list[str]]:
    """Lines that stand together; a rule between them is none."""
    block: list[str] = []
    for line in text.split("\n"):
        line = line.strip()
        if line and not RULE.fullmatch(line):
            block.append(line)
        elif block:
            yield block
            block = []
    if block:
        yield block


def _without_numbers(block: list[str]) -> list[str]:
    """The lines of a list that is numbered by things: `1) 4 small trout` has a number behind the number."""
    numbered = [STEP.match(line) or NUMBERED.match(line) for line in block]
    if any(map(NUMBERED.match, block)) and all(numbered):
        return [line[found.end() :] for line, found in zip(block, numbered, strict=True) if found]
    return block


def _is_prose(line: str) -> bool:
    """A step, a time, a heat, or more than one sentence."""
    if len(line) > LONG or STEP.match(line) or HEAT.match(line) or TIME.match(line):
        return True
    return any(_is_order(line[found.end() - 1 :]) or not line[0].isdigit() for found in BREAK.finditer(line))


def _is_order(line: str) -> bool:
    words = line.lower().split()
    first = words[0].strip(".,:;!") if words else ""
    return (
        first in ORDERS
        or (first in LIKE_THINGS and len(words) > MANY_WORDS and not words[0].endswith(","))
        or CREAM.match(line) is not None
    )


def _amount_made(how: str) -> str:
    """`abt. 5 doz` and `8 - 10` as the keys take them."""
    return ABOUT.sub("about ", SPACED_RANGE.sub("-", how.strip()))


def _is_somebody(words: str) -> bool:
    """Kin, a title, a possessive or a year: `Southern style` and `no bake` are nobody."""
    return SOMEBODY.search(words) is not None or words.lower().startswith("from ")


def _is_signature(line: str) -> bool:
    """Who wrote it, or when, in the last line."""
    return len(line.split()) <= MANY_WORDS and bool(SOMEBODY.search(line)) and line[:1].isupper()


def _ordered(line: str, grammar: Grammar) -> str:
    """`Beans, navy . . . . 10 lb` with its amount first; `Flour    2 lb    2 qt` is `2 lb (2 qt) Flour`."""
    columns = _parts(LEADER.split(line)), _parts(WIDE.split(line))
    return next(filter(None, (_amount_first(parts, grammar) for parts in columns)), " ".join(line.split()))


def _amount_first(parts: list[str], grammar: Grammar) -> str:
    """Name and amounts in columns as one line; empty where they are something else."""
    name, *amounts = parts or [""]
    if not amounts or not _is_amount(amounts[0], grammar) or _is_amount(name, grammar):
        return ""
    second = amounts[1] if len(amounts) == 2 else ""
    if second and _is_amount(second, grammar):
        return f"{amounts[0]} ({second}) {name}"
    return ", ".join((f"{amounts[0]} {name}", *amounts[1:]))


def _parts(columns: list[str]) -> list[str]:
    return [part.strip() for part in columns if part.strip()]


def _is_measured(thing: Ingredient) -> bool:
    """By weight or volume, or eggs: what stands behind a comma in so few words may else be a part of what is before."""
    quantity = thing.quantity
    measured = quantity is not None and quantity.dimension in (Dimension.WEIGHT, Dimension.VOLUME)
    return measured or thing.name.lower() in ("egg", "eggs")


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
    is_word = WORD_AND_POINT.fullmatch(last) is not None and last not in SHORTENED
    return line[:-1] if is_word else line


def _each(line: str, grammar: Grammar) -> Iterator[str]:
    found = EACH.fullmatch(line)
    names = AND.split(found["names"]) if found else []
    if found and len(names) > 1 and _is_amount(found["amount"], grammar):
        yield from (f"{found['amount']} {name.strip()}" for name in names)
    else:
        yield line
