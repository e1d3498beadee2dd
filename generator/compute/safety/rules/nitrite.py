"""A curing salt in; how it is handled, and where an ingredient line names one, a refusal or a question, out.

A refusal says the lines to write instead. Nothing works out the nitrite of an ingredient line: it would be scaled
like pepper. So it stands under `cure:` alone.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.amounts import Scales, curing_salt_grams
from generator.compute.cure.formulas import PER_MILLION
from generator.compute.meat.cut import cut_class, has_belly
from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.doses import Dose, doses_in
from generator.compute.safety.facts.gather import FISH, Facts
from generator.compute.safety.facts.names import stems_in
from generator.compute.safety.facts.pieces import has_meat
from generator.compute.scale.wish import written_meat_g
from generator.model.published import CuringSalt
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Cure, CureLine, Ingredient
from generator.model.results import Cause
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.nitrite_names import NitriteName

HANDLING, UNCLEAR, VEGETABLE = "nitrite-handling", "nitrite-unclear", "vegetable-nitrite"

REFUSED = ("not food", "nitrite", "mixed", "nitrate", "unknown nitrate", "unknown")
"Kinds of names that have no place among the ingredients, the gravest first."
ASKED = ("ask", "ask alone")
BOUGHT = frozenset(
    {
        "bacon",
        "ham",
        "sausage",
        "salami",
        "prosciutto",
        "pepperoni",
        "pastrami",
        "frankfurter",
        "hotdog",
        "bologna",
        "jerky",
    }
    | {
        "chorizo",
        "andouille",
        "kielbasa",
        "pancetta",
        "corned",
        "deli",
        "luncheon",
        "mortadella",
        "bratwurst",
        "dog",
    }
)
"Meat that is bought cured. Source: words of the trade."
BOUGHT_CURED = re.compile(
    r"\b(?:cured|made|preserved|treated|packed|prepared|contain(?:s|ing)?|with|label)\b", re.IGNORECASE
)
LABEL = re.compile(r"\b(?:label|bought|cured with|contains?|packet|package)\b", re.IGNORECASE)
HAS_AMOUNT = re.compile(r"\d|\b(?:tsp|tbsp|teaspoon|tablespoon|pinch|spoon|cup|ounce|gram)", re.IGNORECASE)
ASK_PPM = 120
"Source: FSIS Directive 7620.3: least for cured meat kept cold, and the most in belly by brine (9 CFR 424.22)."
TARGET = f"`curing salt: {ASK_PPM} ppm`"
ASK_NITRATE_PPM = 300
"Source: house choice, below the limit of 21 CFR 172.170(a)(2)."
ONE = Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """An ingredient line with the salt that it names."""

    line: Ingredient
    named: NitriteName
    kind: CuringSalt | None
    "As which it is reckoned; None where its strength is not told by its name."
    grams: Span | None
    "Of one batch; None where it is not known."

    def brings(self, what: str) -> Span | None:
        """Nitrite or nitrate [g]; None where it is not known."""
        if self.kind is None or self.grams is None:
            return None
        return self.grams.times(self.kind.nitrite if what == "nitrite" else self.kind.nitrate)


def nitrite_handling(case: Case) -> None:
    """Every recipe with nitrite: the scale, the lock, the label, and when to throw it away."""
    written, cure = case.recipe.cure, case.facts.cure
    if case.facts.nitrite and cure is not None and written is not None:
        case.box(HANDLING, f"the cure uses {cure.kind.title}", written)


def nitrite_listed(case: Case) -> None:
    """Met: nothing of the kind is listed. Not met: an error a line. Cannot be told: a name that may hold nitrite."""
    listed: list[Listed] = []
    for line in case.recipe.ingredients:
        found = () if line.link or _was_bought_cured(line, case.tables) else _names_in(line, case.tables)
        refused = next((one for kind in REFUSED for one in found if one.kind == kind), None)
        if refused is not None:
            listed.append(_listed(case, line, refused))
        else:
            _ask(case, line, found)
    doses = tuple(_listed(case, dose.line, dose.named) for dose in _told(case))
    for one in (*listed, *doses):
        case.log.add("nitrite-listed", one.line.position, *_words(case, one, (*listed, *doses)))


def _names_in(line: Ingredient, tables: Tables) -> tuple[NitriteName, ...]:
    return tables.nitrite_names.all_in(f"{line.name}, {line.preparation}")


def _was_bought_cured(line: Ingredient, tables: Tables) -> bool:
    """`8 oz bacon, cured with sodium nitrite`: what its label says, and no dose; an amount in it is one."""
    words = set(stems_in(line.name))
    says = BOUGHT_CURED.search(line.preparation) is not None and HAS_AMOUNT.search(line.preparation) is None
    return says and bool(words & BOUGHT) and not tables.nitrite_names.all_in(line.name)


def _told(case: Case) -> list[Dose]:
    """Doses of the method; what is only named there, or stands in a quoted passage, is asked about."""
    refused = []
    doses = doses_in(case.recipe, case.tables) if case.facts.config.is_english else ()
    weighed = case.facts.nitrite or case.recipe.cure is not None
    for dose in doses:
        if dose.is_dose and not dose.sentence.is_quoted and dose.named.kind in REFUSED:
            refused.append(dose)
        elif dose.is_dose or (not weighed and _is_unknown(case, dose)):
            _ask_of(case, dose)
    return refused


def _is_unknown(case: Case, dose: Dose) -> bool:
    """Named as a thing to use, beside meat, and no line has it."""
    lines = (_names_in(line, case.tables) for line in case.recipe.ingredients)
    if LABEL.search(dose.sentence.text) and not BOUGHT.isdisjoint(_all_stems(case)):
        return False  # what is printed on meat that was bought cured
    return has_meat(case.facts) and dose.named.kind in (*REFUSED, "ask", "vegetable") and not any(lines)


def _all_stems(case: Case) -> tuple[str, ...]:
    return stems_in(" ".join(line.name for line in case.recipe.ingredients))


def _ask_of(case: Case, dose: Dose) -> None:
    says = "a quoted passage says" if dose.sentence.is_quoted else "the method says"
    cause = Cause(kind="sentence", words=dose.sentence.text, position=dose.line.position)
    slug = VEGETABLE if dose.named.kind == "vegetable" else UNCLEAR
    case.cannot_tell(slug, f"{says} “{dose.sentence.text.rstrip('.!')}”", ("cure",), cause)


def _ask(case: Case, line: Ingredient, found: Sequence[NitriteName]) -> None:
    kinds = {one.kind for one in found}
    mark = next((one for one in found if one.is_mark), None)
    because = f"{mark.title if mark else line.name} is an ingredient"
    if kinds & set(ASKED):
        case.cannot_tell(UNCLEAR, because, ("ingredients",), line)
    elif "vegetable" in kinds and has_meat(case.facts):
        case.cannot_tell(VEGETABLE, because, ("ingredients",), line)


def _listed(case: Case, line: Ingredient, named: NitriteName) -> Listed:
    kind = case.tables.curing_salt(named.key) if named.key else None
    return Listed(line=line, named=named, kind=kind, grams=_grams(case, line, kind))


def _grams(case: Case, line: Ingredient, kind: CuringSalt | None) -> Span | None:
    """Weight of the salt alone; of a spoon its published range."""
    names, quantity = case.tables.nitrite_names, line.quantity
    if kind is None or quantity is None or quantity.is_vague:
        return None
    if line.id and (not names.all_in(line.name) or names.has_more_than_name(line.name)):
        return None
    amount = CureLine(amount=quantity, written=quantity.written, position=line.position)
    scales = Scales(tables=case.tables, house=case.facts.config.house_weights)
    # A log of its own: what is wrong with the amount is not told twice.
    return curing_salt_grams(amount, kind, scales, ProblemLog())


def _words(case: Case, one: Listed, listed: Sequence[Listed]) -> tuple[str, str]:
    """Sentence and hint."""
    what = "An ingredient line" if one.line.id else "The method"
    if one.named.kind == "not food":
        return (
            f"{what} names {one.named.title}.",
            f"Delete {'the line' if one.line.id else 'the amount'}. A cure takes food-grade curing salt, "
            f"under `cure:`: {TARGET}.",
        )
    message = f"{what} names {one.named.title}; nothing works out its nitrite or nitrate there."
    whats = ("nitrite", "nitrate")
    brings = [words for what in whats if (words := _brings(case, what, one, listed))]
    if brings and one.kind is not None:
        message += f" As {one.kind.title} it brings, {_on(case.facts)}, {' and '.join(brings)}."
    hint = _forbidden(case, one) or _hint(case.facts, one)
    return message, hint if one.line.id else hint.replace("Delete the line", "Delete the amount", 1)


def _brings(case: Case, what: str, one: Listed, listed: Sequence[Listed]) -> str:
    """What it comes to on the meat; empty where an amount is not known."""
    own, base = one.brings(what), _base_g(case.facts)
    if own is None or own.high == 0 or base is None:
        return ""
    own = own.times(one.line.batches(_batches(case.facts)))
    beside = _beside(case.facts, what, one, listed)
    words = f"{_ppm(own, base)} ppm {what}"
    if beside is not None and beside.high > 0:
        words += f", with what stands beside it {_ppm(own.plus(beside), base)} ppm"
    return words + _limit(case, what)


def _beside(facts: Facts, what: str, one: Listed, listed: Sequence[Listed]) -> Span | None:
    """What the other lines and the cure bring [g]; None where one of them is not known."""
    batches, total = _batches(facts), Span.of(0)
    for other in listed:
        if other is one or other.named.kind == "not food":
            continue
        brings = other.brings(what)
        if brings is None:
            return None
        total = total.plus(brings.times(other.line.batches(batches)))
    cure = facts.cure
    if cure is None or cure.setting is None or cure.forms is None:
        return total
    figure = cure.forms.nitrite_ppm if what == "nitrite" else cure.forms.nitrate_ppm
    return total.plus(Span.of(figure.over.at(cure.setting)))


def _batches(facts: Facts) -> Fraction:
    cure = facts.cure
    return cure.setting.batches if cure is not None and cure.setting is not None else ONE


def _base_g(facts: Facts) -> Span | None:
    """What it is spread over [g]: meat and brine of a cure that stands beside it, else all the meat."""
    cure = facts.cure
    if cure is not None and cure.setting is not None and cure.forms is not None:
        return Span.of(cure.forms.nitrite_ppm.under.at(cure.setting))
    total = Span.of(0)
    for meat in facts.meats:
        weight = _own_meat(facts) if meat.line is None else _line_weight(meat.line)
        if weight is None:
            return None
        total = total.plus(weight)
    return total if total.low > 0 else None


def _own_meat(facts: Facts) -> Span | None:
    written = written_meat_g(facts.recipe)
    return None if written is None else Span.of(written)


def _line_weight(line: Ingredient) -> Span | None:
    return line.quantity.total(Dimension.WEIGHT) if line.quantity is not None else None


def _on(facts: Facts) -> str:
    cure = facts.cure
    brined = cure is not None and cure.setting is not None and cure.method == "brine"
    return "on meat and brine together" if brined else "on the meat"


def _limit(case: Case, what: str) -> str:
    """The limit beside the figure; none for fish, most of which may have neither."""
    recipe = case.recipe
    if recipe.meat is None or any(meat.animal.group in FISH for meat in case.facts.meats):
        return ""
    cut = cut_class(recipe, case.tables)
    if what == "nitrate":
        most = case.constant("nitrate_limit_ppm")
        return f" ({'none is allowed' if has_belly(recipe, case.tables) else f'limit {show_decimal(most, places=0)} ppm'})"
    limit = case.tables.limit(cut, recipe.cure.method if recipe.cure is not None else "dry")
    return f" (limit {show_decimal(limit.limit_ppm, places=2)} ppm)"


def _ppm(grams: Span, base: Span) -> str:
    low = round_down(PER_MILLION * grams.low / base.high, ONE)
    high = round_up(PER_MILLION * grams.high / base.low, ONE)
    same = grams.low / base.high == grams.high / base.low
    return f"{int(high):,}" if same else f"{int(low):,} to {int(high):,}"


def _forbidden(case: Case, one: Listed) -> str:
    """Where no amount of it is allowed, there is no line to write instead."""
    fish = [meat.animal for meat in case.facts.meats if meat.animal.group in FISH]
    tables, nitrate = case.tables, _part(one) == "nitrate"
    for animal in fish:
        allowed = tables.fish_nitrate_limit(animal.key) if nitrate else tables.fish_limit(animal.key)
        if not allowed:
            return (
                f"Delete the line: it is not allowed in {animal.title.lower()} (21 CFR 172.170 and 172.175)."
            )
    if nitrate and has_belly(case.recipe, tables):
        return "Delete the line: nitrate is never allowed in belly (9 CFR 424.22(b))."
    return ""


def _hint(facts: Facts, one: Listed) -> str:
    """The lines to write instead."""
    plain = " If plain salt is meant, write pickling salt." if one.named.kind == "mixed" else ""
    if not has_meat(facts):
        return f"Delete the line: it is for curing meat alone.{plain}"
    cure, lines = facts.recipe.cure, " and ".join(_lines(one))
    if cure is not None and _stands_there(cure, one):
        return (
            f"Delete the line: `cure:` has its {_part(one)} already, and all of it is weighed there.{plain}"
        )
    where = "under `cure:`" if cure is not None else "under `cure:`, with `method: dry` and `salt: 3 %`"
    meat = "" if facts.recipe.meat is not None else ", and the raw meat with its weight under `meat:`"
    return f"Delete the line, and write {where}: {lines}{meat}.{LABELS.get(one.named.kind, '')}{plain}"


def _part(one: Listed) -> str:
    return "nitrate" if one.named.kind in ("nitrate", "unknown nitrate") else "curing salt"


def _stands_there(cure: Cure, one: Listed) -> bool:
    return (cure.nitrate if _part(one) == "nitrate" else cure.curing_salt) is not None


def _lines(one: Listed) -> tuple[str, ...]:
    """A weight as written; for a spoon, for a pure nitrite and for an unknown strength a target."""
    written = _written(one)
    if _part(one) == "nitrate":
        name = "sodium nitrate" if one.named.key == "sodium nitrate" else "saltpetre"
        return (f"`nitrate: {written or f'{ASK_NITRATE_PPM} ppm'} {name}`",)
    if one.named.kind == "unknown":
        return (TARGET, "a `kind of curing salt:` of its own")
    if one.named.kind == "nitrite" or one.kind is None:
        return (TARGET, "`kind of curing salt: no. 1`")
    amount = f"`curing salt: {written}`" if written else TARGET
    return (amount, f"`kind of curing salt: {one.kind.key}`")


def _written(one: Listed) -> str:
    quantity = one.line.quantity
    weight = quantity.total(Dimension.WEIGHT) if quantity is not None else None
    one_weight = quantity is not None and weight is not None and not weight.is_range and one.grams is not None
    return quantity.written if quantity is not None and one_weight else ""


LABELS = {
    "nitrite": " The pure salt poisons by the gram: use the mixed one, which is weighed more surely.",
    "unknown nitrate": " Use it no more: its strength is not known.",
    "mixed": " If its label tells another strength, put that into book.yaml under `curing salts:` and name it as its kind.",
    "unknown": " Its strength stands on its label alone: put that into book.yaml under `curing salts:`.",
}
"What to know besides, by kind of name."


RULES = (
    Rule(slugs=(HANDLING,), look=nitrite_handling),
    Rule(slugs=(UNCLEAR, VEGETABLE), look=nitrite_listed),
)
