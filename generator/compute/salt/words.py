"""The salt of a dish in, quiet lines out: rounded outward, beside the published limits of a day."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from generator.model.quantity import Span
from generator.model.results import DishSalt, SaltShare
from generator.model.shown import grams_shown, listed, show_decimal, sodium_shown
from generator.tables import Tables
from generator.tables.names import folded, stems_of

TASTE_ABOVE_G = Fraction(2)
"A serving with more salt than this by its components wants tasting first. Source: house choice, 2/5 of WHO's day."


def salt_facts(salt: DishSalt | None, tables: Tables) -> tuple[str, ...]:
    """One line of salt and sodium, one of what is not counted, one that asks to taste first; nothing for no salt."""
    if salt is None:
        return ()
    lines = [_unknown_line(salt) if salt.total_g is None else _salt_line(salt, tables)]
    if salt.not_counted:
        lines.append(f"Salt that is not counted: {listed(salt.not_counted)}.")
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
        names = _names(salt.shares)
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
    names = _names([share for share in salt.shares if share.grams is None])
    return f"How much salt is in it is not known: the cure of {names} is not worked out."


def _taste_line(salt: DishSalt) -> str:
    carried = salt.portion(salt.carried_g)
    if carried is None:
        return "Taste before you salt." if salt.adds_salt else ""
    if salt.serves is None or not salt.adds_salt or carried.high <= TASTE_ABOVE_G:
        return ""
    brings = "bring" if len(salt.shares) > 1 or _is_plural(salt.shares[0].name) else "brings"
    most = grams_shown(Span(Fraction(0), carried.high))
    return f"Taste before you salt: {_names(salt.shares)} {brings} {most} g a serving."


def _start(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}" if words.startswith("up to") else f"About {words}"


def _names(shares: Iterable[SaltShare]) -> str:
    return listed([f"the {_lower(share.name)}" for share in shares])


def _is_plural(name: str) -> bool:
    """Smoked hocks are several; what stands behind a comma or `with` says nothing of that."""
    *_, last = folded(re.split(r",| (?:with|in|of|for|on) ", name, maxsplit=1)[0]).split()
    return stems_of(last) != last


def _lower(name: str) -> str:
    return name if name[1:2].isupper() else f"{name[:1].lower()}{name[1:]}"
