"""`accept:` of a recipe or of book.yaml in, the rules that its author contradicts on purpose out, each with a reason.

Only a rule of the signal word WARNING can be accepted: a DANGER rule never, and CAUTION and NOTICE stop nothing.
"""

from __future__ import annotations

from generator.problems import nearest
from generator.read.keys import Behind, Holds, Key
from generator.read.values import Value, words
from generator.tables import Tables

ACCEPTABLE = "WARNING"
"Signal word of the rules that can be accepted. Source: ANSI Z535; that DANGER is never accepted is a house choice."
WHY_NOT = {
    "DANGER": "It is a DANGER rule, which nobody can accept: change the recipe so that it keeps to it.",
    "CAUTION": "It is a CAUTION rule: it prints a box and stops nothing, so there is nothing to accept.",
    "NOTICE": "It is a NOTICE: it prints a box and stops nothing, so there is nothing to accept.",
}
EMPTY_HINT = "Write why, in words that readers of the page see: {slug}: we cook it to 160 °F, by thermometer."


def accept_key(takes: str) -> Key:
    """The entry of `accept:`, which recipes and book.yaml take alike."""
    return Key(
        "accept",
        _read_accept,
        f"the slug of a WARNING rule and why; {takes}",
        "wild-game-165: whole cuts, cooked to 160 °F by thermometer",
        behind=Behind.MAPPING,
        holds=Holds.PROSE,
    )


def _read_accept(value: Value) -> dict[str, str]:
    """Slug of a rule and the author's reason, in the order of the file; what cannot be accepted is a problem."""
    accepted: dict[str, str] = {}
    for one in value.items():
        reason = words(one) if _has_reason(one) else ""
        if _is_acceptable(one) and reason:
            accepted[one.name] = reason
    return accepted


def _has_reason(one: Value) -> bool:
    if one.text is not None and one.text.value:
        return True
    at, slug = one.found.place(*one.path), one.name
    one.log.add("wrong-value", at, f"'{slug}' is accepted without a reason.", EMPTY_HINT.format(slug=slug))
    return False


def _is_acceptable(one: Value) -> bool:
    tables, slug = one.grammar.tables, one.name
    rule = tables.cautions.get(slug)
    if rule is not None and rule.signal == ACCEPTABLE:
        return True
    if rule is None:
        message, hint = f"'{slug}' is not a rule.", _known(slug, tables)
    else:
        message, hint = f"The rule '{slug}' cannot be accepted.", WHY_NOT[rule.signal]
    one.log.add("unknown-rule", one.position, message, hint)
    return False


def _known(slug: str, tables: Tables) -> str:
    acceptable = [rule.slug for rule in tables.cautions.values() if rule.signal == ACCEPTABLE]
    return (
        nearest(slug, acceptable)
        or nearest(slug, tables.cautions)
        or ("Rules are named by their slug, as on the page rules/ of the site: wild-game-165.")
    )
