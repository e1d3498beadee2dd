"""The salt of a dish in, quiet lines out: rounded outward, beside the published limits of a day."""

from __future__ import annotations

from fractions import Fraction

from generator.model.quantity import Span
from generator.model.results import DishSalt
from generator.model.rounding import round_down, round_nearest, round_up
from generator.model.shown import show_decimal
from generator.tables import Tables

SALT_STEP_G = Fraction(1, 10)
"Source: house choice; no estimate here is finer."
COARSE_FROM_G, COARSE_STEP_G = Fraction(10), Fraction(1)
"From here whole grams. Source: house choice."
SODIUM_STEPS_MG = ((Fraction(140), Fraction(5)), (Fraction(10_000), Fraction(10)))
"Up to each, in steps of. Source: 21 CFR 101.9(c)(4), 5 to 140 mg by 5, above by 10 (second-hand)."
COARSE_SODIUM_MG = Fraction(100)
"Above all steps. Source: house choice."
TASTE_ABOVE_G = Fraction(2)
"A serving with more salt than this by its components wants tasting first. Source: house choice, 2/5 of WHO's day."


def salt_facts(salt: DishSalt | None, tables: Tables) -> tuple[str, ...]:
    """One line of salt and sodium, one of what is not counted, one that asks to taste first; nothing for no salt."""
    if salt is None:
        return ()
    lines = [_unknown_line(salt) if salt.total_g is None else _salt_line(salt, tables)]
    if salt.not_counted:
        lines.append(f"Salt that is not counted: {_listed(salt.not_counted)}.")
    lines.append(_taste_line(salt))
    return tuple(line for line in lines if line)


def _salt_line(salt: DishSalt, tables: Tables) -> str:
    total, carried = salt.portion(salt.total_g), salt.portion(salt.carried_g)
    assert total is not None
    assert carried is not None
    if total.high == 0:
        return ""
    sodium = salt.sodium_mg(total)
    assert sodium is not None
    a = "a serving" if salt.serves is not None else "in the batch"
    words = f"{_start(grams_shown(total))} g salt ({sodium_shown(sodium)} mg sodium) {a}"
    if salt.shares:
        names = _listed([f"the {_lower(share.name)}" for share in salt.shares])
        if carried == total:
            words += f", all of it from {names}"
        elif grams_shown(carried) == grams_shown(total):
            words += f", nearly all of it from {names}"
        else:
            words += f", of which {grams_shown(carried)} g from {names}"
    return f"{words}{_limits(tables) if salt.serves is not None else ''}."


def _limits(tables: Tables) -> str:
    who, fda = tables.constant("who_salt_g"), tables.constant("fda_sodium_mg")
    return f"; a day's limit is {show_decimal(who, places=1)} g salt (WHO), {int(fda):,} mg sodium (FDA)"


def _unknown_line(salt: DishSalt) -> str:
    names = [f"the {_lower(share.name)}" for share in salt.shares if share.grams is None]
    return f"How much salt is in it is not known: the cure of {_listed(names)} is not worked out."


def _taste_line(salt: DishSalt) -> str:
    carried = salt.portion(salt.carried_g)
    if carried is None:
        return "Taste before you salt." if salt.adds_salt else ""
    if salt.serves is None or not salt.adds_salt or carried.high <= TASTE_ABOVE_G:
        return ""
    names = _listed([f"the {_lower(share.name)}" for share in salt.shares])
    brings = "bring" if len(salt.shares) > 1 else "brings"
    return f"Taste before you salt: {names} {brings} up to {grams_shown(Span.of(carried.high))} g a serving."


def grams_shown(grams: Span) -> str:
    """`1.2 to 2.0`, the low end rounded down and the high end up; one number where it is known."""
    step = COARSE_STEP_G if grams.high >= COARSE_FROM_G else SALT_STEP_G
    return _shown(grams, step, places=1)


def sodium_shown(milligrams: Span) -> str:
    """`470 to 790`, in the steps of nutrition labels."""
    step = next((step for upto, step in SODIUM_STEPS_MG if milligrams.high <= upto), COARSE_SODIUM_MG)
    return _shown(milligrams, step, places=0)


def percent_shown(percent: Span) -> str:
    """`2.1 to 3.9`, outward to a tenth."""
    return _shown(percent, SALT_STEP_G, places=1)


def _shown(span: Span, step: Fraction, *, places: int) -> str:
    if not span.is_range:
        return _number(max(round_nearest(span.low, step), step if span.low else Fraction(0)), places)
    low, high = round_down(span.low, step), round_up(span.high, step)
    if low == 0:
        return f"up to {_number(high, places)}"
    return _number(low, places) if low == high else f"{_number(low, places)} to {_number(high, places)}"


def _number(value: Fraction, places: int) -> str:
    """With its tenth, 2.0, below 10; thousands apart."""
    if places and value < COARSE_FROM_G:
        return f"{float(value):.1f}"
    return f"{int(value):,}"


def _start(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}" if words.startswith("up to") else f"About {words}"


def _lower(name: str) -> str:
    return name if name[1:2].isupper() else f"{name[:1].lower()}{name[1:]}"


def _listed(words: list[str] | tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
