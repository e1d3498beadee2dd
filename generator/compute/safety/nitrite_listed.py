"""Ingredient lines that name a nitrite or nitrate salt in; a refusal with the lines to write instead, or a question, out.

Nothing works out the nitrite of an ingredient line: it would be scaled like pepper. So it stands under `cure:` alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.amounts import Scales, curing_salt_grams
from generator.compute.cure.formulas import PER_MILLION
from generator.compute.cut_class import cut_class
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.pieces import has_meat
from generator.compute.safety.verdict import cannot_tell
from generator.compute.scale import written_meat_g
from generator.model.published import CuringSalt
from generator.model.quantity import Dimension, Span
from generator.model.recipe import CureLine, Ingredient
from generator.model.results import Caution
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.nitrite_names import NitriteName

REFUSED = ("not food", "nitrite", "mixed", "nitrate", "unknown nitrate", "unknown")
"Kinds of names that have no place among the ingredients, the gravest first."
ASKED = ("ask", "ask alone")
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


def nitrite_listed(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: nothing of the kind is listed. Not met: an error a line. Cannot be told: a name that may hold nitrite."""
    asked: list[Caution] = []
    listed: list[Listed] = []
    for line in facts.recipe.ingredients:
        found = _named(line, tables)
        kinds = {one.kind for one in found}
        refused = next((one for kind in REFUSED for one in found if one.kind == kind), None)
        if refused is not None:
            listed.append(_listed(line, refused, facts, tables))
        elif kinds & set(ASKED):
            asked += _ask("nitrite-unclear", line, found, tables)
        elif "vegetable" in kinds and has_meat(facts):
            asked += _ask("vegetable-nitrite", line, found, tables)
    for one in listed:
        log.add("nitrite-listed", one.line.position, *_words(one, tuple(listed), facts, tables))
    return asked


def _named(line: Ingredient, tables: Tables) -> tuple[NitriteName, ...]:
    return () if line.link else tables.nitrite_names.all_in(f"{line.name}, {line.preparation}")


def _ask(slug: str, line: Ingredient, found: tuple[NitriteName, ...], tables: Tables) -> list[Caution]:
    mark = next((one for one in found if one.is_mark), None)
    return cannot_tell(
        slug, f"{mark.title if mark else line.name} is an ingredient", ("ingredients",), tables
    )


def _listed(line: Ingredient, named: NitriteName, facts: Facts, tables: Tables) -> Listed:
    kind = tables.curing_salt(named.key) if named.key else None
    return Listed(line=line, named=named, kind=kind, grams=_grams(line, kind, facts, tables))


def _grams(line: Ingredient, kind: CuringSalt | None, facts: Facts, tables: Tables) -> Span | None:
    """Weight of the salt alone; of a spoon its published range."""
    names, quantity = tables.nitrite_names, line.quantity
    if kind is None or quantity is None or quantity.is_vague:
        return None
    if not names.all_in(line.name) or names.has_more_than_name(line.name):
        return None
    amount = CureLine(amount=quantity, written=quantity.written, position=line.position)
    scales = Scales(tables=tables, house=facts.config.house_weights)
    return curing_salt_grams(amount, kind, scales, ProblemLog())


def _words(one: Listed, listed: tuple[Listed, ...], facts: Facts, tables: Tables) -> tuple[str, str]:
    """Sentence and hint."""
    if one.named.kind == "not food":
        return (
            f"An ingredient line names {one.named.title}.",
            f"Delete the line. A cure takes food-grade curing salt, under `cure:`: {TARGET}.",
        )
    message = f"An ingredient line names {one.named.title}; nothing works out its nitrite or nitrate there."
    whats = ("nitrite", "nitrate")
    brings = [words for what in whats if (words := _brings(what, one, listed, facts, tables))]
    if brings and one.kind is not None:
        message += f" As {one.kind.title} it brings, {_on(facts)}, {' and '.join(brings)}."
    return message, _forbidden(one, facts, tables) or _hint(one, facts)


def _brings(what: str, one: Listed, listed: tuple[Listed, ...], facts: Facts, tables: Tables) -> str:
    """What it comes to on the meat; empty where an amount is not known."""
    own, base = one.brings(what), _base_g(facts)
    if own is None or own.high == 0 or base is None:
        return ""
    own = own.times(one.line.batches(_batches(facts)))
    beside = _beside(what, one, listed, facts)
    words = f"{_ppm(own, base)} ppm {what}"
    if beside is not None and beside.high > 0:
        words += f", with what stands beside it {_ppm(own.plus(beside), base)} ppm"
    return words + _limit(what, facts, tables)


def _beside(what: str, one: Listed, listed: tuple[Listed, ...], facts: Facts) -> Span | None:
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


def _limit(what: str, facts: Facts, tables: Tables) -> str:
    """The limit beside the figure; none for fish, most of which may have neither."""
    recipe = facts.recipe
    if recipe.meat is None or any(meat.animal.group in ("fish", "shellfish") for meat in facts.meats):
        return ""
    cut = cut_class(recipe, tables)
    if what == "nitrate":
        most = tables.constant("nitrate_limit_ppm")
        return f" ({'none is allowed' if cut == 'belly' else f'limit {show_decimal(most, places=0)} ppm'})"
    limit = tables.limit(cut, recipe.cure.method if recipe.cure is not None else "dry")
    return f" (limit {show_decimal(limit.limit_ppm, places=2)} ppm)"


def _ppm(grams: Span, base: Span) -> str:
    low = round_down(PER_MILLION * grams.low / base.high, ONE)
    high = round_up(PER_MILLION * grams.high / base.low, ONE)
    same = grams.low / base.high == grams.high / base.low
    return f"{int(high):,}" if same else f"{int(low):,} to {int(high):,}"


def _forbidden(one: Listed, facts: Facts, tables: Tables) -> str:
    """Where no amount of it is allowed, there is no line to write instead."""
    fish = [meat.animal for meat in facts.meats if meat.animal.group in ("fish", "shellfish")]
    nitrate = _part(one) == "nitrate"
    for animal in fish:
        allowed = tables.fish_nitrate_limit(animal.key) if nitrate else tables.fish_limit(animal.key)
        if not allowed:
            return (
                f"Delete the line: it is not allowed in {animal.title.lower()} (21 CFR 172.170 and 172.175)."
            )
    if nitrate and facts.recipe.meat is not None and cut_class(facts.recipe, tables) == "belly":
        return "Delete the line: nitrate is never allowed in belly (9 CFR 424.22(b))."
    return ""


def _hint(one: Listed, facts: Facts) -> str:
    """The lines to write instead."""
    plain = " If plain salt is meant, write pickling salt." if one.named.kind == "mixed" else ""
    if not has_meat(facts):
        return f"Delete the line: it is for curing meat alone.{plain}"
    cure, lines = facts.recipe.cure, " and ".join(_lines(one))
    if cure is not None and _stands_there(one, facts):
        return (
            f"Delete the line: `cure:` has its {_part(one)} already, and all of it is weighed there.{plain}"
        )
    where = "under `cure:`" if cure is not None else "under `cure:`, with `method: dry` and `salt: 3 %`"
    meat = "" if facts.recipe.meat is not None else ", and the raw meat with its weight under `meat:`"
    return f"Delete the line, and write {where}: {lines}{meat}.{LABELS.get(one.named.kind, '')}{plain}"


def _part(one: Listed) -> str:
    return "nitrate" if one.named.kind in ("nitrate", "unknown nitrate") else "curing salt"


def _stands_there(one: Listed, facts: Facts) -> bool:
    cure = facts.recipe.cure
    assert cure is not None
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
