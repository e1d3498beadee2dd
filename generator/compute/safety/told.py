"""Acts that a recipe's words tell in; for each that nothing else in the recipe makes harmless its box out.

Each rule shows the acts of its own slugs, so that one hazard is one box, with the stages and the sentences that made it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from generator.compute.safety.case import Case
from generator.compute.safety.facts.acts import Act, Told, degrees_at, degrees_in, minutes_in
from generator.compute.safety.facts.oil import is_eaten_at_once, is_met_in_oil
from generator.compute.safety.facts.places import COLD, IN_WATER
from generator.english import clause_of, is_turned_down
from generator.tables.phrases import spoken

SHORT_MIN = Fraction(120)
"[min] Source: USDA FSIS, Danger Zone: two hours out of the cold at most."
LONG_MIN = Fraction(240)
"[min] Source: Food Code 3-501.19: food that was four hours out of the cold is thrown away."
OUT_OF_COLD, OUT_OF_COLD_LONG = "danger-hours", "danger-hours-long"
HOT_F, COLD_F = Fraction(140), Fraction(41)
"[degF] Source: USDA FSIS, Danger Zone: hold hot food at 140 °F or hotter; Food Code 3-501.16: cold food at 41 °F."
WARM_F = Fraction(120)
"[degF] A temperature as hot is one of cooking. Source: house choice."
BOILS_F = Fraction(212)
"[degF] Hotter is no food with water in it. Source: a definition."
RARE_F = Fraction(90)
"[degF] A middle as cool is one of raw meat, or of a rest. Source: house choice."
REACHED_F = Fraction(160)
"[degF] Source: FoodSafety.gov chart, ground meat and egg dishes; less is no heat that a word of raw can lean on."
WILD_GROUPS = frozenset({"bear", "wild pig", "carnivore"})
"Animals that are never eaten rare or raw. Source: as high-risk-game-165."
MEASURED = frozenset(
    {"inside", "internal", "thermometer", "reaches", "registers", "centre", "center", "reads"}
)
"Words beside a temperature of the middle. Source: words of the trade."
UP_TO = frozenset(
    {"to", "past", "over", "above", "beyond", "least", "reads", "reaches", "says", "registers", "inside"}
)
"Words before a temperature that food comes to. Source: words of the trade."
AIR = frozenset(
    {"oven", "smoker", "smokehouse", "dryer", "drier", "dehydrator", "grill", "coals", "fire", "racks"}
)
"Words close to the heat of air. Source: words of the trade."
BATHS = frozenset({"water", "brine", "milk", "oil"})
"Words of a clause whose heat is that of a bath. Source: words of the trade."
DRIED = frozenset({"dry", "dries", "drying", "dried", "dehydrate", "smoke", "smokes", "hang"})
"Words of a clause whose heat behind `at` is that of air. Source: words of the trade."
LATER = frozenset(
    {"leftovers", "leftover", "left", "reheat", "reheated", "again", "next", "need", "bother", "fuss"}
)
"Words of a sentence whose heat is that of the day after, or done without. Source: words of the trade."
NO_RAW = re.compile(r"\bno (?:pink|red|blood|raw)\b")
"Source: words of the trade."
NEAR_WORDS = 3
"So many words before a temperature are looked at. Source: house choice."
JARS = frozenset({"jar", "jars", "canner", "canned", "canning", "pints", "quarts", "lids"})
"Words of canning. Source: words of the trade."
HEADS = ("name", "summary", "tag", "line")
"What a recipe is called and made of."
STANDS_FOR = frozenset({"it", "them", "this", "these", "everything", "all", "dish", "dishes", "food", "rest"})
"Words that stand for a dish. Source: words of the trade."
LONGEST = 160
"Characters of a sentence that a reason quotes whole. Source: house choice."


def tell(case: Case) -> None:
    """Every act of the rule's slugs: its box, or one refusal by those whose words are certain."""
    for slug in case.slugs:
        acts = [act for act in case.facts.words.acts if _slug_of(case, act) == slug and counts(case, act)]
        certain = [act for act in acts if act.row.certain and not act.told.is_quoted]
        for act in acts:
            case.told(slug, _because(act), act.told.cause(act.start))
        if certain:
            _refuse(case, slug, certain)


def _slug_of(case: Case, act: Act) -> str:
    """That of its row; out of the cold for more than four hours it is graver."""
    if act.row.slug != OUT_OF_COLD:
        return act.row.slug
    whole_day = case.tables.acts().notation.phrase("[whole night]").stands_in(spoken(act.words))
    is_long = whole_day or (act.minutes is not None and act.minutes > LONG_MIN)
    return OUT_OF_COLD_LONG if is_long else OUT_OF_COLD


def counts(case: Case, act: Act) -> bool:
    """The recipe has what makes the act a hazard, and nothing that takes it out."""
    row = act.row
    if not all(_holds(case, act, one) for one in row.when if not one.startswith("[")):
        return False
    classes = [one for one in row.when if one.startswith("[")]
    if classes and not any(_holds(case, act, one) for one in classes):
        return False
    return not any(_holds(case, act, one) for one in row.unless) and not _is_beside(case, act)


def _is_beside(case: Case, act: Act) -> bool:
    """A phrase in its own sentence that makes it harmless, and is not turned down itself."""
    for written in act.row.beside:
        phrase = case.tables.acts().beside[written]
        if written.startswith("within "):
            if phrase.stands_in(spoken(act.words)):
                return True
        elif any(not act.told.is_turned_down(*one) for one in phrase.find(act.told.heard)):
            return True
    return False


def _holds(case: Case, act: Act, fact: str) -> bool:
    if fact.startswith("["):
        return _speaks_of(case, act, fact)
    if fact in case.facts.words.facts:
        return True
    return fact in KNOWN and KNOWN[fact](case, act)


def _speaks_of(case: Case, act: Act, name: str) -> bool:
    """A word of the class in the act's own sentence, or in what the recipe is called and made of.

    A gathering is about more than its dishes: chairs on the porch are none. A dish is meant by `it` and the like.
    """
    phrase = case.tables.acts().notation.phrase(name)
    kinds = HEADS if STANDS_FOR.isdisjoint(spoken(act.words).words) else (*HEADS, "dish")
    heads = (one for one in case.facts.words.told if one.kind in kinds)
    if any(phrase.stands_in(one.heard) for one in (act.told, *heads)):
        return True
    return any(phrase.stands_in(spoken(f"{meat.name} {meat.animal}")) for meat in case.recipe.meats)


def _is_heated(case: Case, act: Act) -> bool:
    """By a stage, or by the act's own clause or one behind it."""
    if any(case.tables.stages.get(stage.name, False) for stage in case.stages):
        return True
    heat = case.tables.acts().notation.phrase("[heat]")
    begin, _ = clause_of(act.told.text, act.start)
    return any(
        not one.is_quoted and not one.is_turned_down(*span) and (one is not act.told or span[0] >= begin)
        for one in _from(case, act)
        for span in heat.find(one.heard)
    )


def says_heat(case: Case) -> bool:
    """A sentence, its name or what a stage waits for speaks of heat, by a word or by a temperature that cooks."""
    heat = case.tables.acts().notation.phrase("[heat]")
    sentences = [one for one in case.facts.words.told if one.kind == "sentence" and not one.is_quoted]
    if any(degrees >= WARM_F for one in sentences for degrees in degrees_in(one.text, one.scale)):
        return True
    return any(
        one.kind != "line" and not one.is_quoted and not one.is_turned_down(*span)
        for one in case.facts.words.told
        for span in heat.find(one.heard)
    )


def tells_inside(case: Case, least_f: Fraction) -> Told | None:
    """The sentence that brings the food to a least temperature [degF]; none where any speaks of a cooler middle."""
    found = None
    for one in case.facts.words.told:
        if one.kind != "sentence" or one.is_quoted or not LATER.isdisjoint(one.heard.words):
            continue
        for heat, start, end in degrees_at(one.text, one.scale):
            if not WARM_F <= heat <= BOILS_F or _is_around_food(one, start, end):
                continue
            if WARM_F <= heat < least_f and not one.is_turned_down(start, end):
                return None
            if heat >= least_f and _comes_to(one, start, end):
                found = found or one
    return found


def tells_cooler(case: Case, least_f: Fraction) -> Told | None:
    """A sentence that measures the middle and stops below a temperature [degF]."""
    for one in case.facts.words.told:
        if one.kind != "sentence" or one.is_quoted or not LATER.isdisjoint(one.heard.words):
            continue
        for heat, start, end in degrees_at(one.text, one.scale):
            near = {*spoken(one.text[max(0, start - LONGEST) : start]).joined.split()[-NEAR_WORDS:]}
            near |= {*spoken(one.text[end : end + LONGEST]).joined.split()[:1]}
            measured = not (MEASURED | {"says"}).isdisjoint(near)
            if RARE_F <= heat < least_f and measured and not one.is_turned_down(start, end):
                return one
    return None


def _is_around_food(one: Told, start: int, end: int) -> bool:
    """The heat of air that is named right before or behind it, or of a bath in its clause."""
    # a stretch of a long sentence, so that the work grows with the text
    first = max(0, start - LONGEST)
    near = one.text[first : end + LONGEST]
    begin, stop = clause_of(near, start - first)
    before = spoken(one.text[first:start]).joined.split()[-NEAR_WORDS:]
    behind = spoken(one.text[end : end + LONGEST]).joined.split()[:1]
    if not MEASURED.isdisjoint(behind):
        return False
    if not AIR.isdisjoint((*before, *behind)):
        return True
    clause = spoken(near[begin:stop]).words
    dried = before[-1:] == ["at"] and not DRIED.isdisjoint(clause)
    return dried or not BATHS.isdisjoint(clause)


def _comes_to(one: Told, start: int, end: int) -> bool:
    before = spoken(one.text[:start]).joined.split()[-NEAR_WORDS:]
    # no pink is no denial of the heat behind it; as long as before, so that the places stay
    text = NO_RAW.sub(lambda found: "x" * len(found.group()), one.text)
    return not UP_TO.isdisjoint(before) and not is_turned_down(text, start, end, following=one.following)


def is_frozen_long(case: Case) -> bool:
    """As the food code asks of fish that is eaten raw, by a stage or by a sentence."""
    return _has_long_frost(case) or _tells_long_frost(case)


def _from(case: Case, act: Act) -> tuple[Told, ...]:
    """The sentence of the act and all behind it; of a name or a line every sentence."""
    rest = case.facts.words.told[act.index :]
    return tuple(one for one in rest if one.kind in ("sentence", act.told.kind))


def _reaches(case: Case, act: Act) -> bool:
    """A stage or a sentence asks for a middle that is hot enough."""
    inside = case.facts.inside_f
    if inside is not None and inside >= REACHED_F:
        return True
    return any(
        not MEASURED.isdisjoint(one.heard.words)
        and any(heat >= REACHED_F for heat in degrees_in(one.text, one.scale))
        for one in case.facts.words.told
        if not one.is_quoted
    )


def _is_short(case: Case, act: Act) -> bool:
    return act.minutes is not None and act.minutes <= SHORT_MIN


def _is_hot(case: Case, act: Act) -> bool:
    return any(heat >= HOT_F for heat in act.degrees_f)


def _is_cold(case: Case, act: Act) -> bool:
    """A cold place in the act's clause, or a temperature as cold."""
    cold = case.tables.acts().notation.phrase("[cold place]")
    return any(heat <= COLD_F for heat in act.degrees_f) or cold.stands_in(spoken(act.clause))


def _thaws_cold(case: Case, act: Act) -> bool:
    return any(stage.name == "thaw" and stage.place in COLD | IN_WATER for stage in case.stages)


def _is_chilled(case: Case, act: Act) -> bool:
    """A stage in the fridge or an ice bath."""
    return any(stage.place in COLD | IN_WATER for stage in case.stages)


def _has_jar_stage(case: Case, act: Act) -> bool:
    return any(stage.name == "jar" for stage in case.stages)


def _has_jars(case: Case, act: Act) -> bool:
    """A stage `jar`, or a jar anywhere in its words."""
    jars = JARS & frozenset().union(*(one.heard.words for one in case.facts.words.told))
    return _has_jar_stage(case, act) or bool(jars)


def _is_kept_cold(case: Case, act: Act) -> bool:
    """Every place where it is kept is cold."""
    return bool(case.recipe.keep) and all(keep.place in COLD for keep in case.recipe.keep)


def _has_long_frost(case: Case) -> bool:
    """A stage of the seven days at -4 °F that kill the parasites of fish."""
    most, week = case.constant("fish_freezing_f"), case.constant("fish_freezing_h") * 60
    return any(
        stage.name == "freeze"
        and stage.at is not None
        and stage.at.high.fahrenheit <= most
        and stage.minutes is not None
        and stage.minutes.low >= week
        for stage in case.stages
    )


def _tells_long_frost(case: Case) -> bool:
    """A sentence that asks for those days at that temperature."""
    most, week = case.constant("fish_freezing_f"), case.constant("fish_freezing_h") * 60
    return any(
        not one.is_quoted
        and any(heat <= most for heat in degrees_in(one.text, one.scale))
        and any(minutes >= week for minutes in minutes_in(one.text))
        for one in case.facts.words.told
    )


def _is_wild(case: Case, act: Act) -> bool:
    return bool(case.facts.wild)


def _is_deadly(case: Case, act: Act) -> bool:
    return any(meat.animal.group in WILD_GROUPS and meat.is_wild for meat in case.facts.meats)


def _has_nitrate(case: Case) -> bool:
    return case.recipe.cure is not None and case.recipe.cure.nitrate is not None


def _is_sour(case: Case, act: Act) -> bool:
    """An acid among the lines, or a stage `pickle`."""
    sour = any(case.tables.garden.says(line.name, "acid") for line in case.recipe.ingredients)
    return sour or case.facts.first_stage("pickle") is not None


KNOWN: Mapping[str, Callable[[Case, Act], bool]] = {
    "short": _is_short,
    "hot": _is_hot,
    "cold": _is_cold,
    "heated": _is_heated,
    "no heat": lambda case, act: not _is_heated(case, act),
    "reaches": _reaches,
    "cold thaw": _thaws_cold,
    "chilled stage": _is_chilled,
    "jar stage": _has_jar_stage,
    "jars": _has_jars,
    "kept cold": _is_kept_cold,
    "frozen long": lambda case, act: is_frozen_long(case),
    "wild": _is_wild,
    "deadly game": _is_deadly,
    "ferment stage": lambda case, act: case.facts.first_stage("ferment") is not None,
    "sour": _is_sour,
    "met in oil": lambda case, act: is_met_in_oil(case.facts, case.tables),
    "eaten at once": lambda case, act: is_eaten_at_once(case.recipe),
    "nitrite": lambda case, act: case.facts.nitrite or _has_nitrate(case),
}
"How each fact of tables/acts.py is known."

SAYS = {
    "sentence": "the method says “{}”",
    "name": "it is called “{}”",
    "summary": "its summary says “{}”",
    "tag": "its tag says “{}”",
    "line": "a line says “{}”",
    "stage": "the course says “{}”",
}
QUOTED = "a quoted passage says “{}”"


def _refuse(case: Case, slug: str, certain: Sequence[Act]) -> None:
    told = case.tables.cautions[slug].text.partition(". ")[0].rstrip(".")
    case.refuse(
        slug,
        *(act.told.cause(act.start) for act in certain),
        message=f"The words “{certain[0].words}” tell the cook to do what is never safe.",
        hint=f"{told}, and take these words out.",
        because=_because(certain[0]),
    )


def _because(act: Act) -> str:
    says = QUOTED if act.told.is_quoted else SAYS[act.told.kind]
    text = act.told.text if len(act.told.text) <= LONGEST else f"… {act.clause.strip()} …"
    return says.format(text.rstrip(".!"))
