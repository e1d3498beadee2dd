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
from generator.model.recipe import Ingredient, Makes, Meat
from generator.model.shown import show_decimal
from generator.model.slug import slugify
from generator.problems import ProblemLog
from generator.read.grammar import MEASURED, Grammar
from generator.read.number import AmountError, plain
from generator.read.quantity import read_amount
from generator.read.share_line import WHOLE
from generator.read.values import Value

DEEPEST = 3
"Groups of which each is a share of what another one weighs. Source: house; a formula has two."
EXAMPLES = ("10 lb", "12 oz")
MOST_NAMED = 3
"Lines that a hint names together. Source: house."
_BASE = re.compile(
    r"(?:^|[,:;(–-] ?|(?:%|per ?cent|percentage|pct) )of (?:all )?(?:the )?(?P<base>[^,;:()]+)\)?$",
    re.IGNORECASE,
)
"How a title ends that says what its lines are shares of."
_RATE = re.compile(r"(?:^|[ ,(])(?:per|each|every) (?:[0-9]{1,4} )?(?=[^\W\d_])", re.IGNORECASE)
_AND = re.compile(r" (?:and|plus|\+|&) (?:the )?", re.IGNORECASE)
_WEIGHT = re.compile(r"(?:total )?(?:weight of )?(?:the )?(?P<of>.+?)(?: weight)?", re.IGNORECASE)
_TOTALS = ("total", "whole", "total weight", "whole mix", "mix", "mixture", "batch")
_MEATS = frozenset({"meat", "meats", "green weight", "meat block"})


def base_of(title: str) -> str:
    """What the lines under a title are shares of, in its words; empty where it does not say."""
    return _cut(title)[1]


def _cut(title: str) -> tuple[str, str]:
    """A title without what its lines are shares of, and that."""
    words = " ".join(plain(title).split())
    found = _BASE.search(words)
    if found is None:
        return words, ""
    return words[: found.start()].rstrip(" ,:;(–-").removesuffix(", in"), found["base"].strip()


def weigh_shares(
    lines: Mapping[str, Ingredient], meats: tuple[Meat, ...], makes: Makes | None, value: Value
) -> dict[str, Ingredient]:
    """The lines by id with a weight, or of parts of a volume that, for each share; what has none is a problem."""
    weighed, titles = dict(lines), []
    shared = {line.group for line in lines.values() if line.share is not None}
    for title in dict.fromkeys(line.group for line in lines.values()):
        if title not in shared and not _RATE.search(plain(title)):
            continue
        group = _Group(title=title, lines=lines, meats=meats, makes=makes, grammar=value.grammar)
        _ask_rate(group, value)
        if group.shares and group.words:
            titles.append(title)
        elif group.shares:
            _ask_base(group, value.log)
    for _ in range(DEEPEST):
        tried = ProblemLog()
        titles = [one for one in titles if not _weigh_group(one, weighed, meats, makes, value, tried)]
    value.log.extend(tried)
    _refuse_same_wholes(weighed, value)
    return weighed


def _ask_base(group: _Group, log: ProblemLog) -> None:
    """One question for all shares that the same title would answer: those in per cent, those in parts."""
    first: dict[bool, Ingredient] = {}
    for line in group.shares:
        first.setdefault(line.share is not None and line.share.is_parts, line)
    for line in first.values():
        says = group.says_nothing(line)
        log.add(says.slug, line.position, says.message, says.hint)


def _ask_rate(group: _Group, value: Value) -> None:
    """`Seasoning, per lb of meat`: what stands under it is for a pound, and nothing says how many there are."""
    title = plain(group.title)
    found = _RATE.search(title)
    unit = value.grammar.unit_at(title, found.end()) if found else None
    if unit is not None and unit[0].dimension in MEASURED and (group.beside or group.shares):
        value.log.add(
            "unreadable-amount",
            value.found.key(*value.path, group.title),
            f"'{group.title}' is a rate, and the lines under it would be taken as they stand.",
            "Give it a title that is none, and write the lines for all of it; or write them in per cent, under a title "
            f"such as {group.titled_for_rate}.",
        )


def _refuse_same_wholes(lines: Mapping[str, Ingredient], value: Value) -> None:
    """Two wholes of one name could not be asked for one by one."""
    first: dict[str, str] = {}
    for line in lines.values():
        id = slugify(line.share.whole) if line.share is not None else ""
        if id and first.setdefault(id, line.group) != line.group:
            value.log.add(
                "same-id",
                value.found.key(*value.path, line.group),
                f"'{line.group}' and '{first[id]}' are called the same.",
                "Begin one of the titles with another word.",
            )


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
        is_told = base_of(title).lower() in _MEATS and not meats and "meat" in value.found.data
        if not is_told:  # of a meat that cannot be read its own problem is enough
            log.add(error.slug, value.found.key(*value.path, title), error.message, error.hint)
        return False
    for line in group.shares:
        lines[line.id] = _weighed(line, base, of, value.grammar)
    return True


def _weighed(line: Ingredient, base: _Base, of: Fraction, grammar: Grammar) -> Ingredient:
    assert line.share is not None
    part = line.share.part.times(of)
    share = replace(
        line.share, part=part, of=base_of(line.group) or "total", base=base.quantity, whole=base.whole
    )
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
    def beside(self) -> list[Ingredient]:
        """The lines under the title that are no shares and have an amount."""
        rest = (line for line in self.lines.values() if line.group == self.title and line.share is None)
        return [line for line in rest if line.quantity is not None and not line.quantity.is_vague]

    @property
    def weights(self) -> list[Span]:
        """Of these lines, where it is known."""
        return [weight for line in self.beside if (weight := _weight(line)) is not None]

    @property
    def stem(self) -> str:
        """The title without what its lines are shares of."""
        return _cut(self.title)[0]

    def titled(self, base: str) -> str:
        """The title with a base; of an example its weight is the author's to say."""
        own = ", with its own weight" if base in EXAMPLES else ""
        return f"'{self.stem or 'Shares'}, of {base}'{own}"

    @property
    def titled_for_rate(self) -> str:
        return f"'{self.stem.partition(',')[0].partition(' per ')[0] or 'Shares'}, of {self._likely}'"

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
        words, parts = self.words, self.is_parts
        amount = self._amount(words)
        if amount is not None:
            self._refuse_more_than_all()
            self._ask_beside_parts()
            return _Base(quantity=amount, whole=self._whole)
        things = self._things(words)
        if not things and words.lower() in _TOTALS:
            self._ask_beside_parts()
            return _Base(quantity=self._total(), whole=self._whole)
        if parts:
            raise AmountError(
                "wrong-value",
                f"Parts make a whole of their own; they are no share of '{words}'.",
                f"End the title with what they come to: {self.titled(self._some_whole)}; or write per cent.",
            )
        return self._sum_of(things or [one for word in _AND.split(words) for one in self._each(word)])

    @property
    def words(self) -> str:
        """What the title says; of a recipe that is nothing but parts, and says what it makes, the total."""
        said = base_of(self.title)
        counted = (
            one for one in self.lines.values() if one.share or (one.quantity and not one.quantity.is_vague)
        )
        is_all = all(one.share and one.share.is_parts and one.group == self.title for one in counted)
        return said or ("total" if is_all and self._made(in_parts=True) else "")

    def _refuse_more_than_all(self) -> None:
        """Of what a mixture weighs nothing in it is more than all."""
        for line in self.shares:
            if line.share and not line.share.is_parts and line.share.part.high > 1:
                raise AmountError(
                    "shares-not-whole",
                    f"'{line.share.written}' of '{line.name}' is more than all of it.",
                    "Write 100 % or less, or a title that says what it is of.",
                )

    def _ask_beside_parts(self) -> None:
        """A weight among parts is in what they come to, or on top of it."""
        if self.is_parts and self.weights:
            line = next(one for one in self.beside if _weight(one) is not None)
            raise AmountError(
                "wrong-value",
                f"'{line.name}' stands by its weight among parts.",
                "Write it in parts too; or, where it comes on top of them, give it a title of its own.",
            )

    @property
    def _whole(self) -> str:
        return self.stem if slugify(self.stem) else "total"

    @property
    def _likely(self) -> str:
        """What shares of this recipe may be of: its meat, what is weighed in it, or an example."""
        if self.meats:
            return "the meat"
        lines = [line for line in self.lines.values() if line.share is None and _weight(line) is not None]
        # One of two flours alone would be another recipe.
        named = [f"the {line.name}" for line in lines if line.group == lines[0].group]
        return " and ".join(named) if 0 < len(named) <= MOST_NAMED else "10 lb"

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

    def _made(self, *, in_parts: bool = False) -> Quantity | None:
        """What a batch makes, by weight, or where parts are asked for by volume."""
        if self.makes is None:
            return None
        kinds = MEASURED if in_parts or self.is_parts else (Dimension.WEIGHT,)
        return next(
            (self.makes.quantity for kind in kinds if self.makes.quantity.total(kind) is not None), None
        )

    def _total(self) -> Quantity:
        """The weight of which the shares, with what is weighed beside them, are all."""
        unweighed = next((line for line in self.beside if _weight(line) is None), None)
        if unweighed is not None and not self.is_parts:
            raise AmountError(
                "unknown-base",
                f"'{unweighed.name}' stands in the total of '{self.title}' without a weight.",
                f"Write its weight: {_with_weight(unweighed)}, with its own; or give it a title of its own.",
            )
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

    def _each(self, words: str) -> list[_Thing]:
        """What one of several names is."""
        things = self._things(words)
        if not things:
            raise AmountError(
                "unknown-base",
                f"'{words}' is no line of this recipe, and no weight.",
                f"End the title with what has a weight: {self.titled(self._likely)}.",
            )
        return things

    def _things(self, words: str) -> list[_Thing]:
        """All meat, the line of that name, or all that end in it: lines, what stands under such a title, kinds of meat."""
        found = _WEIGHT.fullmatch(words)
        name = found["of"] if found else words
        if self.meats and {name.lower(), words.lower()} & _MEATS:
            return [_of_meat(meat) for meat in self.meats]
        lines = [line for line in self.lines.values() if line.share is None or line.group != self.title]
        exact = [line for line in lines if line.id == slugify(name) or line.name.lower() == name.lower()]
        called = exact or [line for line in lines if line.is_called(name)]
        titled = [] if exact else [line for line in lines if _stem(line.group) == name.lower()]
        meats = [] if exact else [meat for meat in self.meats if _is_in(name, meat.name)]
        self._ask_which(name, called, titled, meats)
        return [_of_line(line) for line in called or titled] or [_of_meat(meat) for meat in meats]

    def _ask_which(
        self, words: str, called: list[Ingredient], titled: list[Ingredient], meats: list[Meat]
    ) -> None:
        """One word for a line and for other things."""
        if not called or not (meats or (titled and titled != called)):
            return
        other = f"'{meats[0].name}'" if meats else f"all that stands under '{titled[0].group}'"
        raise AmountError(
            "unknown-base",
            f"'{words}' could be '{called[0].name}' or {other}.",
            f"Name the line, {called[0].name}"
            + (f", or the meat, {meats[0].name}." if meats else ", or give the other title another word."),
        )

    def _sum_of(self, things: list[_Thing]) -> _Base:
        for thing in things:
            if thing.weight is None:
                raise AmountError(
                    "unknown-base", f"'{thing.name}' has no weight, so there is no share of it.", thing.hint
                )
        if len({thing.fixed for thing in things}) > 1:
            raise AmountError(
                "wrong-value",
                f"Of what these are shares of, one line scales and '{next(t.name for t in things if t.fixed)}' is (fixed).",
                "Name one of them, or take (fixed) out.",
            )
        weight = Span.total(thing.weight for thing in things if thing.weight is not None)
        about = any(thing.about for thing in things)
        return _Base(quantity=replace(_grams(weight, self.grammar), about=about), fixed=things[0].fixed)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """A line or a meat that shares are of."""

    name: str
    weight: Span | None
    "[g]"
    hint: str
    "What to write where it has none."
    about: bool = False
    fixed: bool = False


def _of_line(line: Ingredient) -> _Thing:
    return _Thing(
        name=line.name,
        weight=_weight(line),
        hint=f"Write its weight in that line: {_with_weight(line)}, with its own weight.",
        about=line.quantity is not None and line.quantity.about,
        fixed=line.fixed,
    )


def _of_meat(meat: Meat) -> _Thing:
    grams = meat.green_g
    hint = "Write `weight: 5 lb` under `meat:`, with its own weight."
    hint = f"Write its weight there: 5 lb {meat.name}, with its own weight." if meat.called else hint
    return _Thing(name=meat.name, weight=None if grams is None else Span.of(grams), hint=hint)


def _stem(group: str) -> str:
    return _cut(group)[0].lower()


def _is_in(words: str, name: str) -> bool:
    """As whole words, one or more: trim, of elk trim."""
    stems = [" ".join(word.removesuffix("s") for word in one.lower().split()) for one in (words, name)]
    return f" {stems[0]} " in f" {stems[1]} "


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
