"""`accept:` of a recipe or of book.yaml in, the rules that its author contradicts on purpose out, each with a reason.

Only a rule of the signal word WARNING can be accepted: a DANGER rule never, and CAUTION and NOTICE stop nothing.
"""

from __future__ import annotations

from generator.problems import nearest
from generator.read.values import Values
from generator.tables import Tables

ACCEPTABLE = "WARNING"
"Signal word of the rules that can be accepted. Source: ANSI Z535; that DANGER is never accepted is a house choice."
WHY_NOT = {
    "DANGER": "It is a DANGER rule, which nobody can accept: change the recipe so that it keeps to it.",
    "CAUTION": "It is a CAUTION rule: it prints a box and stops nothing, so there is nothing to accept.",
    "NOTICE": "It is a NOTICE: it prints a box and stops nothing, so there is nothing to accept.",
}
EMPTY_HINT = "Write why, in words that readers of the page see: {slug}: we cook it to 160 °F, by thermometer."


def read_accept(values: Values) -> dict[str, str]:
    """Slug of a rule and the author's reason, in the order of the file; what cannot be accepted is a problem."""
    accepted: dict[str, str] = {}
    for path in values.found.texts:
        if path[0] != "accept" or len(path) != 2:
            continue
        slug = str(path[1])
        reason = (
            values.read(lambda value: " ".join(value.split()), *path) if _has_reason(values, slug) else None
        )
        if _is_acceptable(values, slug) and reason:
            accepted[slug] = reason
    return accepted


def _has_reason(values: Values, slug: str) -> bool:
    text = values.found.text("accept", slug)
    if text is not None and text.value:
        return True
    at = values.found.place("accept", slug)
    values.log.add("wrong-value", at, f"'{slug}' is accepted without a reason.", EMPTY_HINT.format(slug=slug))
    return False


def _is_acceptable(values: Values, slug: str) -> bool:
    tables = values.grammar.tables
    rule = tables.cautions.get(slug)
    if rule is not None and rule.signal == ACCEPTABLE:
        return True
    at = values.found.key("accept", slug)
    if rule is None:
        values.log.add("unknown-rule", at, f"'{slug}' is not a rule.", _known(slug, tables))
    else:
        values.log.add("unknown-rule", at, f"The rule '{slug}' cannot be accepted.", WHY_NOT[rule.signal])
    return False


def _known(slug: str, tables: Tables) -> str:
    acceptable = [rule.slug for rule in tables.cautions.values() if rule.signal == ACCEPTABLE]
    return (
        nearest(slug, acceptable)
        or nearest(slug, tables.cautions)
        or ("Rules are named by their slug, as on the page rules/ of the site: wild-game-165.")
    )
