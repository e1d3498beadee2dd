"""One line of `ingredients` in, an Ingredient out: amount, unit, name, preparation; perhaps a link, perhaps (fixed).

A line that cannot be read for certain raises AmountError with its place in the line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from urllib.parse import unquote

from generator.english.size import SIZE_OF
from generator.model.quantity import COUNT, Dimension, Measure, Quantity
from generator.model.recipe import Ingredient, Link
from generator.model.slug import slugify
from generator.read.behind import read_behind, read_part_of
from generator.read.grammar import MEASURED, Grammar
from generator.read.head import Head, read_head
from generator.read.number import AmountError, plain, unreadable
from generator.read.quantity import of_size, read_amount, take_alternative
from generator.read.second import (
    check_parts,
    check_preparation,
    cut_name,
    leading_rate,
    rate_at,
    rate_unit,
    rate_words_end,
    second_amounts,
)
from generator.read.spoon import check_letter, check_level
from generator.read.text import Text

_FIXED = "(fixed)"
_FIXED_INSIDE = re.compile(r"\(fixed\)", re.IGNORECASE)
LINK = re.compile(r"\[(?P<text>(?:[^\[\]]|\[[^\[\]]*\])*+)\]\((?P<target>[^()\s]*)\)")
"A pair of brackets may stand among the words."
_END_OF_LINK = re.compile(r"\]\((?P<target>[^()\s]*\.md)\)")
_OF = re.compile(r" +of(?= )", re.IGNORECASE)
_HIDDEN = re.compile(r"(?:^|\s)(?:of|and|or|plus|\+)\s+(?P<number>[0-9¼-¾⅐-⅞])", re.IGNORECASE)
"A second amount inside a name: juice of 2 lemons, 1 onion and 2 carrots."
_WORDY = re.compile(
    r"(?:an?|half|quarter|several|(?:a )?few|(?:a )?couple|lots|plenty|up to|another)(?= )(?! and )",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class _Parts:
    """A line cut at its first comma outside brackets; offsets count in the whole line."""

    quantity: Quantity | None
    name: str
    name_at: int
    preparation: str
    link: Link | None
    apart: str = ""
    "By these words the line is known instead of by its name."


def parse_ingredient(line: Text, grammar: Grammar, *, group: str = "") -> Ingredient:
    """The ingredient of one line, or AmountError."""
    text = line.value
    fixed = text.rstrip()[-len(_FIXED) :].lower() == _FIXED
    text = text.rstrip()[: -len(_FIXED)].rstrip() if fixed else text
    inside = _FIXED_INSIDE.search(text)
    if inside:
        raise AmountError(
            "wrong-value", "'(fixed)' stands inside the line.", "Write it at the end.", inside.start()
        )
    read = _fluid(_without_size(_read(text, line, grammar)), grammar)
    parts = _with_published(_sized_behind(read, grammar), grammar)
    _check_name(parts, grammar)
    _check_order(parts, grammar)
    _check_curing_salt(parts, grammar)
    scales = parts.quantity is not None and not parts.quantity.is_vague
    return Ingredient(
        id=slugify(parts.link.text if parts.link else parts.apart or parts.name),
        name=parts.name,
        quantity=parts.quantity,
        preparation=parts.preparation,
        second=second_amounts(parts.preparation, grammar) if scales else (),
        group=group,
        fixed=fixed,
        link=parts.link,
        written=line.value,
        position=line.position,
    )


def _check_curing_salt(parts: _Parts, grammar: Grammar) -> None:
    """Of curing salt the spoon must be certain, wherever it is named."""
    named = grammar.tables.nitrite_names.all_in(parts.name)
    if parts.quantity is None or all(row.kind == "plain" for row in named):
        return
    written = plain(parts.quantity.written)
    check_level(
        written, parts.name, f"Weigh it, and write its grams before '{parts.name}'; or a level measure of it."
    )
    check_letter(written, parts.name)


def _read(text: str, line: Text, grammar: Grammar) -> _Parts:
    """The first form that a line has."""
    if LINK.search(text):
        return _cut_link(text, line, grammar)
    _refuse_half_link(text)
    check_parts(text)
    either = _EITHER.match(text)
    if either:
        one, other = either["one"].strip(" ,"), either["other"].strip()
        raise unreadable(
            "One of two is meant.", f"Write the one, and the other behind it: {one}, or {other}.", 0
        )
    for form in (_rate, _head_first, _part_of, _amount_last):
        found = form(text, grammar)
        if found is not None:
            return found
    name, preparation = _name_and_preparation(text, 0)
    quantity, name, preparation = _trailing_vague(name, preparation, grammar)
    return _Parts(quantity, " ".join(name.split()), 0, preparation, None)


_EITHER = re.compile(r"either (?P<one>[^,]{1,60}?),? or (?P<other>.{1,99})", re.IGNORECASE)


def _rate(text: str, grammar: Grammar) -> _Parts | None:
    """`20 g salt per kg of meat`: so much to each; more batches do not make it more."""
    slash = rate_unit(text)
    if slash:
        text = f"{text[: slash.start()]}{text[slash.end() :]} per {slash['unit']}"
    leading = leading_rate(text)
    if leading:
        text = f"{text[leading.end() :]} {leading['rate'][:1].lower()}{leading['rate'][1:]}"
    at = rate_at(text, grammar)
    if at and not leading and not _amount_and_name(text[:at], grammar):
        # The rate stands between the amount and the name: 1/4 tsp per jar calcium chloride.
        end = rate_words_end(text, at + 1)
        text = f"{text[:at]}{text[end:]} {text[at + 1 : end]}"
        at = len(text) - (end - at)
    found = _head_first(text[:at], grammar) or _amount_last(text[:at], grammar) if at else None
    if found is None or at is None or found.quantity is None or found.quantity.is_vague:
        return None
    rate = text[at:].strip(" ,:")
    words = ", ".join(filter(None, (found.preparation, rate.strip("()") if rate.startswith("(") else rate)))
    said = found.quantity.written.strip()
    return _Parts(Quantity(vague=said, written=said), found.name, found.name_at, words, None)


def _amount_and_name(text: str, grammar: Grammar) -> bool:
    try:
        head = read_head(text, 0, grammar)
    except AmountError:
        return True
    return head is None or bool(text[head.end :].strip(" ,"))


def _head_first(text: str, grammar: Grammar) -> _Parts | None:
    """Amount, unit, name, preparation."""
    head = read_head(text, 0, grammar)
    if head is None:
        return None
    _ask_dash(head, text, grammar)
    quantity, name_at, words = head.quantity, head.end, head.words
    if of := _OF.match(text, name_at):
        name_at = of.end()
    name_at += len(text[name_at:]) - len(text[name_at:].lstrip())
    name, preparation = _name_and_preparation(text, name_at)
    taken, name = take_alternative(quantity, name, name_at, grammar)
    quantity, name = _bracket_inside(_one_of(taken or quantity), name, grammar)
    quantity, name = _of_weight(quantity, name, grammar)
    if not quantity.is_vague:
        check_preparation(preparation, text, name_at, grammar)
        name, second = cut_name(name, text, name_at, grammar)
        preparation = ", ".join(filter(None, (second, preparation)))
    name, words = _leading_brackets(name, words)
    if not name:
        quantity, name = _thing_itself(quantity)
    preparation = ", ".join(filter(None, (words, preparation)))
    quantity, name, preparation = _either(quantity, name, preparation)
    return _Parts(quantity, " ".join(name.split()), name_at, preparation, None)


_LOOSE_DASH = re.compile(r"(?P<low>[^ ]{1,9}) [-–—] (?P<size>.{1,20})$")


def _ask_dash(head: Head, text: str, grammar: Grammar) -> None:
    """`3 – 4 lb. rabbits`: a range of weights, or three of four pounds."""
    dash = _LOOSE_DASH.match(head.quantity.written)
    word = text[head.end : head.end + 40].strip().split(" ")[0].strip(",").lower()
    single = word.removesuffix("s")
    if dash is None or single == word or head.quantity.dimension is not Dimension.WEIGHT:
        return
    if grammar.tables.animal(single) or grammar.tables.animal(word):
        low, size = dash["low"], dash["size"].rstrip(". ")
        raise unreadable(
            f"'{head.quantity.written} {word}' could be a range of weights or {low} of {size} each.",
            f"Write {low} to {size} {word}, or {low} ({size} each) {word}.",
            0,
        )


_FIRST_BRACKET = re.compile(r"(?P<words>\([^()]{1,60}\)),? +(?=[^\W\d_])")
_LAST_BRACKET = re.compile(
    r" (?P<words>\((?:scant|heaping|heaped|generous|about|rounded|level)\))$", re.IGNORECASE
)
_MANNER_BRACKET = re.compile(
    r"\((?P<words>scant|heaping|heaped|generous|level|packed|rounded)\) ", re.IGNORECASE
)


def _leading_brackets(name: str, words: str) -> tuple[str, str]:
    """`1 cup (scant) molasses`: what says how the cup is filled is no name."""
    last = _LAST_BRACKET.search(name)
    if last:
        name, words = name[: last.start()], ", ".join(filter(None, (words, last["words"])))
    found = _MANNER_BRACKET.match(name)
    bracket = _FIRST_BRACKET.match(name)
    if found is None and bracket:
        return name[bracket.end() :], ", ".join(filter(None, (words, bracket["words"])))
    if found is None:
        return name, words
    said = found["words"].lower()
    said = said if said == "packed" else "" if said == "level" else f"{said} (counted as level)"
    return name[found.end() :], ", ".join(filter(None, (said, words)))


_INSIDE = re.compile(r"(?P<before>[^()]{1,30})\((?P<inside>[^()]{1,40})\) (?P<after>.{1,99})")


def _bracket_inside(quantity: Quantity, name: str, grammar: Grammar) -> tuple[Quantity, str]:
    """`1 large (about 8 oz) onion`: the brackets stand between an adjective and its noun."""
    found = _INSIDE.fullmatch(name)
    if found is None or not _only_adjectives(found["before"]) or quantity.alternative or quantity.is_vague:
        return quantity, name
    taken, rest = take_alternative(quantity, name[: found.end("inside") + 1], 0, grammar)
    if taken is None or rest.endswith(")"):
        return quantity, name
    return _one_of(taken), f"{found['before'].strip()} {found['after']}"


_OF_WEIGHT = re.compile(
    r" (?:of|weighing)(?P<about> about)? (?=[0-9¼-¾⅐-⅞]|[a-z]{3,9}(?:-[a-z]{3,9})? (?:lb|pound|kg|kilo|oz|ounce))"
)


def _of_weight(quantity: Quantity, name: str, grammar: Grammar) -> tuple[Quantity, str]:
    """`a ham of fourteen pounds`: how much the one weighs."""
    found = _OF_WEIGHT.search(name)
    if found is None or quantity.dimension is not Dimension.COUNT or quantity.alternative or quantity.each:
        return quantity, name
    try:
        size = read_amount(name, found.end(), grammar)
    except AmountError:
        return quantity, name
    if (
        size is None
        or size[0].dimension is not Dimension.WEIGHT
        or name[size[1] :].strip(" .")
        or len(quantity.measures) != 1
    ):
        return quantity, name
    if quantity.measures[0].span != quantity.measures[0].span.of(1):
        return quantity, name
    return of_size(quantity, size[0].measures, about=bool(found["about"])), name[: found.start()]


_SIZE_OR = re.compile(
    r"(?P<size>large|medium|small|whole|big|fresh|ripe)(?: ones)?,? or "
    r"(?P<second>[^,]{1,40}? (?:large|medium|small|big)) (?P<name>.+)",
    re.IGNORECASE,
)


def _either(quantity: Quantity, name: str, preparation: str) -> tuple[Quantity, str, str]:
    """`1 large or 2 small onions`: the name stands behind the second size."""
    if name.lower() not in ("large", "medium", "small", "big", "whole"):
        return quantity, name, preparation
    found = _SIZE_OR.match(f"{name}, {preparation}".replace(", or", " or", 1))
    if found is None:
        return quantity, name, preparation
    noun, _, rest = found["name"].partition(",")
    words = (found["size"], f"or {found['second']}", rest.strip())
    return quantity, noun, ", ".join(filter(None, words))


def _one_of(quantity: Quantity) -> Quantity:
    """The size of one bare thing, or package, that stands behind its name is the size of one: 1 roast (3 lb)."""
    if quantity.each or len(quantity.measures) != 1 or not quantity.alternative:
        return quantity
    measure = quantity.measures[0]
    weighs = all(one.unit.dimension in MEASURED for one in quantity.alternative)
    single = measure.span == measure.span.of(1) and measure.unit is COUNT
    return replace(quantity, each=quantity.alternative) if single and weighs else quantity


def _part_of(text: str, grammar: Grammar) -> _Parts | None:
    found = read_part_of(text, grammar)
    if found is None:
        return None
    name, second = found.name, ""
    if " or " in name:
        name, second = cut_name(name, text, found.name_at, grammar)
    preparation = ", ".join(filter(None, (found.preparation, second)))
    return _Parts(found.head.quantity, name, found.name_at, preparation, None, found.apart)


def _amount_last(text: str, grammar: Grammar) -> _Parts | None:
    found = read_behind(text, grammar)
    if found is None:
        return None
    return _Parts(found.head.quantity, " ".join(found.name.split()), 0, found.preparation, None)


_ADJECTIVE = re.compile(
    r"(?:fresh|dry|cold|hot|warm|thick|thin|large|small|medium|big|ripe|firm|tart|sweet|sour|raw|tender|lean|fat|stale|soft"
    r"|hard|young|old|fine|coarse|boneless|skinless|strong|light|dark|clean|heavy|rich|mild|plain|boiling|wild|good|crisp"
    r"|frozen|bitter|white|red|green|yellow|black|brown|long|short|whole|tough|lukewarm|unsalted|very|freshly|finely|well"
    r"|thoroughly|\w+ed|bone-in|skin-on|home-made|homemade|well-\w+)(?: |$)",
    re.IGNORECASE,
)


def _name_and_preparation(text: str, start: int) -> tuple[str, str]:
    """Cut at the first comma; one between two adjectives (fresh, tender nettle tops) is part of the name."""
    comma = _first_comma(text, start)
    while comma < len(text) and _only_adjectives(text[start:comma]):
        after = _first_comma(text, comma + 1)
        if not re.search(r"[^\W\d_]", text[comma + 1 : after]) or _OR.match(text, comma + 1):
            break
        if _only_adjectives(text[comma + 1 : after]) and after >= len(text):
            break
        comma = after
    return text[start:comma].strip(), text[comma + 1 :].strip()


_OR = re.compile(r" *(?:or|and|plus|to|for|in|with)(?![\w'’-])", re.IGNORECASE)


def _only_adjectives(words: str) -> bool:
    """True for words of which none can be a name."""
    at, words = 0, words.strip().rsplit(",", 1)[-1].strip()
    while found := _ADJECTIVE.match(words, at):
        at = found.end()
    return bool(words) and at == len(words)


_SIZE_BEHIND = re.compile(
    r"(?P<about>(?:about|approximately|approx\.?|around|weighing(?: about)?|each|each about|each weighing(?: about)?) )?",
    re.IGNORECASE,
)
_SIZE_END = re.compile(r" ?(?P<each>each|apiece)?(?P<all>in all|total|altogether)?\.?(?:,|$)", re.IGNORECASE)


def _sized_behind(parts: _Parts, grammar: Grammar) -> _Parts:
    """`1 venison roast, about 3 lb`, `2 hams, 12 to 15 lb. each`: the size of what is counted, behind a comma."""
    quantity, words = parts.quantity, parts.preparation
    if quantity is None or quantity.dimension is not Dimension.COUNT or quantity.alternative or quantity.each:
        return parts
    lead = _SIZE_BEHIND.match(words)
    assert lead is not None
    try:
        size = read_amount(words, lead.end(), grammar)
    except AmountError:
        return parts
    end = _SIZE_END.match(words, size[1]) if size else None
    if size is None or end is None or size[0].dimension not in MEASURED or len(quantity.measures) != 1:
        return parts
    return replace(
        parts,
        quantity=_sized(quantity, size[0], lead[0].lower(), end),
        preparation=words[end.end() :].strip(),
    )


def _sized(quantity: Quantity, size: Quantity, lead: str, end: re.Match[str]) -> Quantity:
    count, about = (
        quantity.measures[0].span,
        size.about or "about" in lead or "approx" in lead or "around" in lead,
    )
    if end["all"]:
        return replace(quantity, alternative=size.measures)
    if count.low == count.high == 1 or end["each"] or lead.startswith("each"):
        return of_size(quantity, size.measures, about=about)
    raise unreadable(
        f"'{size.written}' could be the weight of each or of all.",
        f"Write {size.written} each, or {size.written} in all.",
        0,
    )


def _without_size(parts: _Parts) -> _Parts:
    """`butter the size of an egg`: how much butter, and no egg. Known apart from other butter of the recipe."""
    found = SIZE_OF.search(parts.name)
    name = parts.name[: found.start()].strip(" ,") if found else ""
    if found is None or found.end() < len(parts.name) or not name or parts.link:
        return parts
    words = ", ".join(filter(None, (found.group(), parts.preparation)))
    return replace(parts, name=name, preparation=words, apart=parts.apart or parts.name)


_LIQUID = re.compile(
    r"(?:.* )?(?:beer|ale|stout|lager|cider|wine|milk|stock|broth|soda|water|vinegar|juice|oil|cream|syrup)",
    re.IGNORECASE,
)
_NO_LIQUID = re.compile(
    r"\b(?:condensed|dry|dried|powdered|baking|washing|sour|ice|coconut cream|clotted|in|with)\b",
    re.IGNORECASE,
)
"Sold by weight, whatever the last word says."


def _fluid(parts: _Parts, grammar: Grammar) -> _Parts:
    """`1 12-ounce bottle beer`: ounces of a bottle or a can of a liquid are fluid ounces."""
    quantity = parts.quantity
    if quantity is None or len(quantity.each) != 1 or quantity.each[0].unit.key != "ounce":
        return parts
    if quantity.measures[0].unit.key not in ("bottle", "can", "tin"):
        return parts
    fluid = grammar.unit("fl oz")
    if fluid is None or not _LIQUID.fullmatch(parts.name) or _NO_LIQUID.search(parts.name):
        return parts
    size = (replace(quantity.each[0], unit=fluid),)
    return replace(parts, quantity=of_size(quantity, size, about=quantity.each_about))


def _with_published(parts: _Parts, grammar: Grammar) -> _Parts:
    """A can named by its number gets what such a can holds by the published table."""
    quantity = parts.quantity
    if quantity is None or quantity.alternative or quantity.each or len(quantity.measures) != 1:
        return parts
    measure = quantity.measures[0]
    cups = grammar.holds(measure.unit)
    if cups is None:
        return parts
    volume = Measure(cups, grammar.tables.units["us_cup"]).by(measure.span)
    return replace(parts, quantity=replace(quantity, alternative=(volume,)))


_BEHIND = re.compile(r"(?<![\w/.,])(\d[\d/.,]{0,20}|[¼½¾⅓⅔⅛]) ?([A-Za-z.]{1,20})?$")
"No number and no unit is longer: a run of points is both, and would be cut in two at each of them."


def _check_order(parts: _Parts, grammar: Grammar) -> None:
    """`flour 2 cups` would not scale: the amount stands before the name."""
    found = _BEHIND.search(parts.name)
    if parts.quantity is not None or found is None or found.start() == 0:
        return
    unit = found.group(2)
    if unit is None or grammar.unit_at(parts.name, found.start(2)):
        name = parts.name[: found.start()].strip()
        raise unreadable(
            f"The amount '{found.group().strip()}' stands behind the name and would not scale.",
            f"Write it first: {found.group().strip()} {name}.",
            0,
        )


def _cut_link(text: str, line: Text, grammar: Grammar) -> _Parts:
    found = LINK.search(text)
    assert found is not None
    before = text[: found.start()]
    head = read_head(before, 0, grammar) or Head(Quantity(), 0)
    quantity, name_at = (head.quantity, head.end) if head.quantity.written else (None, 0)
    if quantity is not None and (of := _OF.match(text, name_at)):
        name_at = of.end()
    comma = _first_comma(text, found.end())
    preparation = text[comma + 1 :].strip()
    _check_before(found, _first_comma(text, name_at))
    link = read_link(found, text, line)
    beside = [before[name_at:].strip(), text[found.end() : comma].strip()]
    quantity, beside[1] = take_alternative(quantity, beside[1], found.end(), grammar)
    words = ", ".join(part for part in (head.words, *beside, preparation) if part)
    return _Parts(quantity, link.text, found.start() + 1, words, link)


def _refuse_half_link(text: str) -> None:
    """`[smoked elk] shank](shank.md)` is no link: its words have a bracket too many."""
    end = _END_OF_LINK.search(text)
    if end is not None:
        begin = text.find("[", 0, end.start())
        words = " ".join(re.sub(r"[\[\]]", " ", text[max(begin, 0) : end.start()]).split())
        raise AmountError(
            "wrong-value",
            f"'{text[max(begin, 0) : end.end()]}' is no link: its words have a bracket too many, or lack one.",
            f"Write [{words}]({end['target']}).",
            max(begin, 0),
        )


def _first_comma(text: str, start: int) -> int:
    """The first comma outside brackets, or the end; one between digits is part of a number."""
    depth = 0
    for offset in range(start, len(text)):
        depth += {"(": 1, "[": 1, ")": -1, "]": -1}.get(text[offset], 0)
        between = text[offset - 1 : offset].isdigit() and text[offset + 1 : offset + 2].isdigit()
        if text[offset] == "," and depth <= 0 and not between:
            return offset
    return len(text)


def _check_before(found: re.Match[str], first_comma: int) -> None:
    if first_comma < found.start():
        raise AmountError(
            "wrong-value",
            "The link stands in the preparation, behind a comma.",
            "Write it where the name stands, or mention the recipe in the method.",
            found.start(),
        )


def read_link(found: re.Match[str], text: str, line: Text) -> Link:
    """The one link of a line, to the file of a recipe; any other is an AmountError."""
    target = found.group("target").split("#")[0]
    second = LINK.search(text, found.end())
    if second:
        raise AmountError("wrong-value", "The line has two links.", "Write a line for each.", second.start())
    if not target.lower().endswith(".md") or ":" in target or target.startswith("/"):
        raise AmountError(
            "link-scheme",
            f"'{found.group('target')}' is not a recipe of this book.",
            "Link to the file of a recipe: [smoked elk shank](smoked-elk-shank.md).",
            found.start("target"),
        )
    if not slugify(found.group("text")):
        raise AmountError("missing-name", "The link has no words.", "Name the recipe in it.", found.start())
    return Link(
        text=found.group("text").strip(),
        target=unquote(found.group("target")),
        position=line.at(found.start()),
    )


def _trailing_vague(name: str, preparation: str, grammar: Grammar) -> tuple[Quantity | None, str, str]:
    """`salt, to taste` and `oil for frying`: the vague words stand behind the name."""
    for spelling in grammar.tables.vague:
        if preparation.lower() == spelling:
            return Quantity(vague=preparation, written=preparation), name, ""
        if name.lower().endswith(f" {spelling}"):
            words = name[-len(spelling) :]
            return Quantity(vague=words, written=words), name[: -len(spelling)].strip(), preparation
    return None, name, preparation


def _thing_itself(quantity: Quantity) -> tuple[Quantity, str]:
    """`6 cloves, crushed`: nothing follows the counted word, so it is the thing and not its measure."""
    last = quantity.measures[-1] if quantity.measures else None
    if last is None or len(quantity.measures) > 1 or quantity.dimension is not Dimension.COUNT:
        return quantity, ""
    if last.unit is COUNT or last.unit.factor != 1:
        return quantity, ""
    name = last.unit.plural if last.span.high > 1 else last.unit.singular
    return replace(quantity, measures=(replace(last, unit=COUNT),)), name


def _check_name(parts: _Parts, grammar: Grammar) -> None:
    name, at = parts.name, parts.name_at
    if not slugify(name):
        raise AmountError(
            "missing-name", "The line has no name.", "Write amount, unit, name: 2 cups flour, sifted.", at
        )
    if parts.link:
        return
    hidden = _HIDDEN.search(plain(name))
    if hidden:
        raise unreadable(
            f"An amount stands inside the name '{name}'.",
            "Begin the line with it (2 lemons, juice only), and give each ingredient a line.",
            at + hidden.start("number"),
        )
    if parts.quantity is None:
        _check_bare_name(name, at, grammar)
    elif parts.quantity.dimension is Dimension.COUNT:
        _check_counted_name(name, at, parts.quantity, grammar)
    elif parts.quantity.dimension is Dimension.TIME:
        raise AmountError("wrong-dimension", f"'{parts.quantity.written}' is a length of time.", "", 0)


def _check_bare_name(name: str, at: int, grammar: Grammar) -> None:
    """A line without an amount must not look as if it had one."""
    wordy = _WORDY.match(name)
    if wordy:
        thing = name[wordy.end() :].strip().removeprefix("of ")
        hint = f"Write how much: 1 {thing}, or {thing}, to taste."
        raise unreadable(f"'{wordy.group()}' is not a number.", hint, at)
    if grammar.begins_with_measure(name):
        raise unreadable(f"No number stands before '{name}'.", f"Begin the line with one: 1 {name}.", at)


def _check_counted_name(name: str, at: int, quantity: Quantity, grammar: Grammar) -> None:
    """A number before a misspelled unit, or before a word that changes a unit, is not a count."""
    first, _, rest = name.partition(" ")
    if quantity.measures[-1].unit is not COUNT or not rest:
        return
    near = grammar.near_unit(first)
    if near:
        raise AmountError("unknown-unit", f"'{first}' is not a unit.", f"Did you mean '{near}'?", at)
    words = rest.split()
    if any(grammar.begins_with_measure(word) for word in words[: min(2, len(words) - 1)]):
        raise unreadable(
            f"'{first}' between the number and its unit cannot be read for certain.",
            "Write the measure alone (1 tbsp honey), or weigh it; 'packed' goes behind a comma.",
            at,
        )
