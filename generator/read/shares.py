"""Ingredient lines that are shares in, the same lines with their weights out: 2.25 % salt, 3 parts paprika.

What they are shares of stands at the end of the title of their group: `Salt, of the cabbage`, `Spices, of the meat`,
`Sausage, of the total`, `Rub, of 12 oz`. What could be a share of two things is a problem, never a guess.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.quantity import Dimension, Measure, Quantity, Span
from generator.model.recipe import Ingredient, Makes, Meat, Share
from generator.model.shown import show_decimal
from generator.model.slug import slugify
from generator.problems import ProblemLog
from generator.read.grammar import MEASURED, Grammar
from generator.read.measure import read_count
from generator.read.number import AmountError, plain
from generator.read.quantity import ABOUT, read_amount
from generator.read.second import second_amounts
from generator.read.text import Text
from generator.read.values import Value

WHOLE = Fraction(100)
"Per cent of the total that its shares come to. Source: a definition."
DEEPEST = 3
"Groups of which each is a share of what another one weighs. Source: house; a formula has two."
_BASE = re.compile(r"(?:^|, ?)of (?:all )?(?:the )?(?P<base>[^,]+)$", re.IGNORECASE)
"How a title ends that says what its lines are shares of."
_ARTICLE = re.compile(r"an? (?=part(?![\w'’-]))", re.IGNORECASE)
_SIGN = re.compile(r" ?(?:%|per ?cent(?![\w'’-])|(?P<parts>parts?(?![\w'’-])))(?: of(?= ))? *", re.IGNORECASE)
_LAST = re.compile(r"(?<= )(?P<number>[0-9]{1,4}(?:[.,][0-9]{1,4})?) ?(?:%|per ?cent)$", re.IGNORECASE)
"Bread flour, 100 %: as bakers' tables have it."
_RATIO = re.compile(r"(?P<first>.{1,60}?) (?:to|and) (?P<second>[^ ]{1,12} parts? .{1,60})", re.IGNORECASE)
"3 parts oil to 1 part vinegar."
_TOTALS = ("total", "whole", "total weight", "whole mix", "mix", "mixture", "batch")
_MEATS = ("meat", "meats", "green weight", "meat block")


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A line without its share."""

    share: Share
    rest: Text


def base_of(title: str) -> str:
    """What the lines under a title are shares of, in its words; empty where it does not say."""
    return _cut(title)[1]


def _cut(title: str) -> tuple[str, str]:
    """A title without what its lines are shares of, and that."""
    words = " ".join(plain(title).split())
    found = _BASE.search(words)
    return (words[: found.start()], found["base"].strip()) if found else (words, "")


def take_share(line: Text, title: str, grammar: Grammar) -> Taken | None:
    """The share that a line begins with, or under a title of shares ends with; None where there is none."""
    return _share_first(line, grammar) or (_share_last(line, grammar) if base_of(title) else None)


def _share_first(line: Text, grammar: Grammar) -> Taken | None:
    flat = plain(line.value)
    begin = len(flat) - len(flat.lstrip())
    about = ABOUT.match(flat, begin)
    start = about.end() if about else begin
    article = _ARTICLE.match(flat, start)
    found = (Span.of(1), article.end() - 1) if article else _number(flat, start, grammar)
    sign = _SIGN.match(flat, found[1]) if found else None
    if found is None or sign is None:
        return None
    share = _share(found[0], is_parts=bool(sign["parts"]), written=line.value[begin : sign.end()])
    return Taken(share=replace(share, about=bool(about)), rest=_behind(line, sign.end()))


def _number(flat: str, start: int, grammar: Grammar) -> tuple[Span, int] | None:
    """What is no number is for the reader of amounts to say."""
    try:
        return read_count(flat, start, grammar)
    except AmountError:
        return None


def _share_last(line: Text, grammar: Grammar) -> Taken | None:
    flat = plain(line.value).rstrip()
    sign = _LAST.search(flat)
    found = _number(flat, sign.start("number"), grammar) if sign else None
    name = flat[: sign.start()].rstrip(" ,:-–") if sign else ""
    # Behind an amount it is a strength: 2 cups vinegar, 5 %.
    if sign is None or found is None or not name or _number(flat, 0, grammar):
        return None
    written, rest = line.value[sign.start("number") : len(flat)], replace(line, value=line.value[: len(name)])
    return Taken(share=_share(found[0], is_parts=False, written=written), rest=rest)


def _share(number: Span, *, is_parts: bool, written: str) -> Share:
    words = " ".join(written.removesuffix(" ").removesuffix(" of").split())
    if number.low <= 0:
        raise AmountError("unreadable-amount", f"'{words}' is nothing.", "Write a share above 0.")
    return Share(part=number if is_parts else number.times(1 / WHOLE), is_parts=is_parts, written=words)


def _behind(line: Text, end: int) -> Text:
    """What stands behind the share, each of its characters still at its place."""
    if not line.value[end:].strip():
        raise AmountError("missing-name", "The line has no name.", "Write share and name: 2 % salt.", end)
    at = line.at(end)
    return replace(line, value=line.value[end:], start=(at.line - line.first_line, at.column - 1))


def with_share(line: Ingredient, taken: Taken, whole: Text, grammar: Grammar) -> Ingredient:
    """The line as its share makes it; a share beside an amount, or of a line that does not scale, is an AmountError."""
    if line.quantity is not None or line.name.startswith("("):
        raise AmountError(
            "wrong-value",
            f"An amount stands beside the share '{taken.share.written}'.",
            f"Write one of the two: {taken.share.written} {line.name.partition(') ')[2] or line.name}.",
        )
    ratio = _RATIO.fullmatch(line.name) if taken.share.is_parts else None
    if ratio is not None:
        raise AmountError(
            "unreadable-amount",
            f"'{taken.share.written} {line.name}' is two ingredients.",
            f"Give each a line, {taken.share.written} {ratio['first']} and {ratio['second']}, under a title that ends in "
            "what they come to: 'Dressing, of 1 cup'.",
        )
    if line.fixed:
        raise AmountError(
            "wrong-value",
            f"'{line.name}' is a share, which follows what it is a share of, and (fixed).",
            "Take (fixed) out, or write its weight.",
        )
    second = second_amounts(line.preparation, grammar)
    return replace(line, share=taken.share, second=second, written=whole.value, position=whole.position)


def weigh_shares(
    lines: Mapping[str, Ingredient], meats: tuple[Meat, ...], makes: Makes | None, value: Value
) -> dict[str, Ingredient]:
    """The lines by id with a weight, or of parts of a volume that, for each share; what has none is a problem."""
    weighed = dict(lines)
    shares = [line for line in lines.values() if line.share is not None]
    titles = list(dict.fromkeys(line.group for line in shares if base_of(line.group)))
    for line in shares:
        if not base_of(line.group):
            group = _Group(title=line.group, lines=lines, meats=meats, makes=makes, grammar=value.grammar)
            says = group.says_nothing(line)
            value.log.add(says.slug, line.position, says.message, says.hint)
    for _ in range(DEEPEST):
        tried = ProblemLog()
        titles = [one for one in titles if not _weigh_group(one, weighed, meats, makes, value, tried)]
    value.log.extend(tried)
    return weighed


def _weigh_group(
    title: str,
    lines: dict[str, Ingredient],
    meats: tuple[Meat, ...],
    makes: Makes | None,
    value: Value,
    log: ProblemLog,
) -> bool:
    """True where the shares under a title have their weights now."""
    group = _Group(title=title, lines=lines, meats=meats, makes=makes, grammar=value.grammar)
    try:
        base = group.base()
        of = group.part_of_base()
    except AmountError as error:
        log.add(error.slug, value.found.key(*value.path, title), error.message, error.hint)
        return False
    for line in group.shares:
        lines[line.id] = _weighed(line, base, of, value.grammar)
    return True


def _weighed(line: Ingredient, base: _Base, of: Fraction, grammar: Grammar) -> Ingredient:
    assert line.share is not None
    part = line.share.part.times(of)
    share = replace(line.share, part=part, of=base_of(line.group), base=base.quantity, whole=base.whole)
    quantity = _times(base.quantity, part, grammar)
    about = quantity.about or share.about
    return replace(line, share=share, quantity=replace(quantity, about=about), fixed=base.fixed)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Base:
    """What shares are of."""

    quantity: Quantity
    "A weight, or of parts a volume."
    whole: str = ""
    "By which one may ask for so much of it; empty where it is a line or the meat, which have ids of their own."
    fixed: bool = False


def _times(base: Quantity, part: Span, grammar: Grammar) -> Quantity:
    """So much of a base, in grams or millilitres: nobody typed it."""
    kind = Dimension.WEIGHT if base.total(Dimension.WEIGHT) is not None else Dimension.VOLUME
    total = base.total(kind)
    assert total is not None
    unit = grammar.tables.units["gram" if kind is Dimension.WEIGHT else "millilitre"]
    return Quantity(measures=(Measure(total.by(part), unit),), about=base.about)


def _grams(span: Span, grammar: Grammar) -> Quantity:
    return Quantity(measures=(Measure(span, grammar.tables.units["gram"]),))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Group:
    """The lines under one title, in a recipe."""

    title: str
    lines: Mapping[str, Ingredient]
    meats: tuple[Meat, ...]
    makes: Makes | None
    grammar: Grammar

    @property
    def shares(self) -> list[Ingredient]:
        return [line for line in self.lines.values() if line.group == self.title and line.share is not None]

    @property
    def weights(self) -> list[Span]:
        """Of the lines under the title that are no shares."""
        rest = (line for line in self.lines.values() if line.group == self.title and line.share is None)
        return [weight for line in rest if (weight := _weight(line)) is not None]

    @property
    def stem(self) -> str:
        """The title without what its lines are shares of."""
        return _cut(self.title)[0]

    def titled(self, base: str) -> str:
        return f"'{self.stem or 'Shares'}, of {base}'"

    @property
    def is_parts(self) -> bool:
        kinds = {line.share.is_parts for line in self.shares if line.share}
        if len(kinds) > 1:
            raise AmountError(
                "wrong-value",
                f"Under '{self.title}' stand shares in per cent and in parts.",
                "Write all of them in one way, or give each its own title.",
            )
        return kinds.pop()

    def part_of_base(self) -> Fraction:
        """What a part is of all parts; 1 where the shares are in per cent."""
        return 1 / self._sum() if self.is_parts else Fraction(1)

    def _sum(self) -> Fraction:
        """Of all shares, which must be single numbers where they make a whole."""
        for line in self.shares:
            if line.share and line.share.part.is_range:
                raise AmountError(
                    "wrong-value",
                    f"'{line.share.written}' is a range, and the shares under '{self.title}' make a whole.",
                    "Write one number.",
                )
        return sum((line.share.part.low for line in self.shares if line.share), Fraction(0))

    def base(self) -> _Base:
        """What the title says; AmountError where that has no weight."""
        words, parts = base_of(self.title), self.is_parts
        amount = self._amount(words)
        if amount is not None:
            return _Base(quantity=amount, whole=self._whole)
        named = self._named(words)
        if named is None and words.lower() in _TOTALS:
            return _Base(quantity=self._total(), whole=self._whole)
        if parts:
            raise AmountError(
                "wrong-value",
                f"Parts make a whole of their own; they are no share of '{words}'.",
                f"End the title with what they come to: {self.titled(self._some_whole)}; or write per cent.",
            )
        if named is None:
            named = self._meat(words)
        return named

    @property
    def _whole(self) -> str:
        return self.stem if slugify(self.stem) else "total"

    @property
    def _likely(self) -> str:
        """What shares of this recipe may be of: its meat, what is weighed in it, or an example."""
        lines = (line for line in self.lines.values() if line.share is None and _weight(line) is not None)
        return "the meat" if self.meats else next((f"the {line.name}" for line in lines), "10 lb")

    @property
    def _some_whole(self) -> str:
        """What the recipe makes, where that can be weighed or measured; else an example."""
        return self.makes.quantity.written if self.makes and self._made() is not None else "12 oz"

    def says_nothing(self, first: Ingredient) -> AmountError:
        """Nobody knows what a line is a share of: what it may be, in this very recipe."""
        assert first.share is not None
        base = self._some_whole if first.share.is_parts else self._likely
        where = f"End the title '{self.title}' with it:" if self.title else "Put it under a title that does:"
        return AmountError(
            "unknown-base",
            f"'{first.share.written}' of '{first.name}' does not say of what.",
            f"{where} {self.titled(base)}.",
        )

    def _amount(self, words: str) -> Quantity | None:
        """`10 lb`, `1 qt water`: so much of it; None where the words are no amount."""
        found = read_amount(words, 0, self.grammar.certain)
        if found is None or found[0].dimension not in MEASURED:
            return None
        amount, rest = found[0], words[found[1] :].strip()
        if self.is_parts or amount.total(Dimension.WEIGHT) is not None:
            return amount
        volume = amount.total(Dimension.VOLUME)
        if volume is not None and rest.lower().split()[-1:] == ["water"]:
            return _grams(volume, self.grammar)
        raise AmountError(
            "unknown-base",
            f"'{amount.written}' is a volume, and shares in per cent are of a weight.",
            f"Weigh it, and write that: {self.titled('10 lb')}.",
        )

    def _made(self) -> Quantity | None:
        """What a batch makes, by weight, or where parts are asked for by volume."""
        if self.makes is None:
            return None
        kinds = MEASURED if self.is_parts else (Dimension.WEIGHT,)
        return next(
            (self.makes.quantity for kind in kinds if self.makes.quantity.total(kind) is not None), None
        )

    def _total(self) -> Quantity:
        """The weight of which the shares, with what is weighed beside them, are all."""
        weighed = Span.total(self.weights)
        if self.is_parts or not self.weights:
            made = self._made()
            if not self.is_parts and self._sum() != 1:
                raise self._not_whole(self._sum())
            if made is None:
                raise AmountError(
                    "unknown-base",
                    f"Nothing says what the total of '{self.title}' weighs.",
                    f"End the title with it: {self.titled('10 lb')}.",
                )
            return made
        left = 1 - self._sum()
        if left <= 0:
            raise self._not_whole(self._sum())
        return _grams(weighed.times(1 / left), self.grammar)

    def _not_whole(self, shares: Fraction) -> AmountError:
        come_to = f"{show_decimal(shares * WHOLE, places=2)} %"
        beside = "leave nothing for what is weighed beside them" if self.weights else "not 100 %"
        return AmountError(
            "shares-not-whole",
            f"The shares under '{self.title}' come to {come_to} of the total, {beside}.",
            "Correct them; where they are shares of something else, end the title with that: "
            f"{self.titled(self._likely)}.",
        )

    def _meat(self, words: str) -> _Base:
        """`the meat`: all of it, at the lighter of two writings, as everywhere."""
        found = (
            self.meats if words.lower() in _MEATS else tuple(m for m in self.meats if _one_called(words, m))
        )
        if not found:
            raise AmountError(
                "unknown-base",
                f"'{words}' is no line of this recipe, and no weight.",
                f"End the title with what has a weight: {self.titled(self._likely)}.",
            )
        weights = [_lightest(meat) for meat in found]
        if any(weight is None for weight in weights):
            raise AmountError(
                "unknown-base",
                "The meat has no weight, so there is no share of it.",
                "Add `weight: 5 lb` under `meat:`, with its own weight.",
            )
        return _Base(quantity=_grams(Span.of(sum(filter(None, weights), Fraction(0))), self.grammar))

    def _named(self, words: str) -> _Base | None:
        """The line of that name, or all lines under a title of that name, or all whose names end so."""
        rest = (line for line in self.lines.values() if line.share is None or line.group != self.title)
        found = _lines_named(words, list(rest))
        if not found:
            return None
        spans = []
        for line in found:
            weight = _weight(line)
            if weight is None:
                raise AmountError(
                    "unknown-base",
                    f"'{line.name}' has no weight, so there is no share of it.",
                    f"Write its weight in that line: {_with_weight(line)}, with its own weight.",
                )
            spans.append(weight)
        if len({line.fixed for line in found}) > 1:
            raise AmountError(
                "wrong-value",
                f"Of what is called '{words}' one line scales and another is (fixed).",
                "Name the one that is meant by its whole name.",
            )
        about = any(line.quantity.about for line in found if line.quantity)
        quantity = replace(_grams(Span.total(spans), self.grammar), about=about)
        return _Base(quantity=quantity, fixed=found[0].fixed)


def _lines_named(words: str, lines: list[Ingredient]) -> list[Ingredient]:
    id, name = slugify(words), words.lower()
    exact = [line for line in lines if line.id == id or line.name.lower() == name]
    if exact:
        return exact
    titled = [line for line in lines if line.group and line.group.split(",")[0].strip().lower() == name]
    called = [line for line in lines if line.is_called(words)]
    if titled and called and titled != called:
        raise AmountError(
            "unknown-base",
            f"'{words}' could be '{called[0].name}' or all that stands under '{titled[0].group}'.",
            f"Name the line, {called[0].name}, or give the other title another word.",
        )
    return called or titled


def _one_called(words: str, meat: Meat) -> bool:
    return slugify(meat.name) == slugify(words)


def _with_weight(line: Ingredient) -> str:
    """The line with a weight, as an example."""
    is_volume = line.quantity is not None and line.quantity.dimension is Dimension.VOLUME
    return (
        f"{line.quantity.written} (5 lb) {line.name}" if line.quantity and is_volume else f"5 lb {line.name}"
    )


def _weight(line: Ingredient) -> Span | None:
    """[g] As written; of water also by its volume, at 1 g/mL as in every brine."""
    if line.quantity is None:
        return None
    weight = line.quantity.total(Dimension.WEIGHT)
    return line.quantity.total(Dimension.VOLUME) if weight is None and line.is_water else weight


def _lightest(meat: Meat) -> Fraction | None:
    """Of two writings the lighter, which a cure must fit too."""
    if meat.weight is None:
        return None
    writings = (meat.weight, replace(meat.weight, measures=meat.weight.alternative, alternative=()))
    return min(
        (span.low for one in writings if (span := one.total(Dimension.WEIGHT)) is not None), default=None
    )
