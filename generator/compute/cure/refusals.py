"""A cure in, every reason to give no weights out, each with the number that breaks a limit and what to do about it.

Reasons that follow batches, meat and water are guards, written once for command and page. The others are facts: one
that is missing, and what can have entered a short cure by its last day, which a page cannot work out.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.compute.cure.case import CureInput, JudgedCure, NitriteForms, PumpBrineInput, nitrite_forms
from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.limits import (
    least_meat,
    least_water,
    least_water_by_pick_up,
    most_curing_salt,
    most_curing_salt_by_pick_up,
    most_nitrate,
)
from generator.compute.cure.short import HOURS, Entered
from generator.model.contract import Decimal, Either, Guard, Text, Value, constant, down, up
from generator.model.form import MEAT, NOTHING, WATER, Figure, Form, Setting
from generator.model.published import NitriteLimit
from generator.model.reader import Reader
from generator.model.recipe import CureLine
from generator.model.results import CureForms, PumpBrineResult
from generator.model.rounding import round_down, round_up
from generator.model.shown import Shower, show_decimal, show_number
from generator.problems import Position, ProblemLog
from generator.tables import Tables

HUNDREDTH = Fraction(1, 100)
"Source: house choice: the step in which a least percentage is named, and the step [g] below a gram."
TENTH_G = Fraction(1, 10)
"[g] Source: house choice, the finest step of a kitchen scale that the book asks for."
TEN_G = Fraction(10)
"[g] Source: house choice, the step in which meat and water are named in a way out."
NEEDLE_ROOM = Fraction(99, 100)
"Source: house choice; less curing salt makes the pump brine a little lighter, which this leaves room for."

BASIS = {"brine": "on meat and brine together", "dry": "on the green weight"}
CUTS = {"whole": "whole cuts", "ground": "ground meat", "belly": "belly"}
METHODS = {"brine": "in a brine", "dry": "in a dry cure"}
ONE_TARGET = "Change one target to an amount."
NO_SOLUTION = (
    "No weights reach all the targets of this cure: together they ask for more than there can be.",
    ONE_TARGET,
)
NO_PUMP_BRINE = ("No weights reach all the targets of the pump brine.", ONE_TARGET)


def make_guards(cure: JudgedCure) -> tuple[Guard, ...]:
    """Every comparison, in the order in which they are looked at.

    What cannot be solved stands first and stops the rest, because their numbers would be of no cure at all.
    """
    return (
        *_no_solution(cure),
        *_pump_brine(cure),
        *_nitrate(cure),
        *_nitrite(cure),
        *_accelerator(cure),
        _negative_salt(cure),
        *_saturation(cure),
        *_too_little(cure),
        *_pump(cure),
    )


def _at(line: CureLine | None, given: CureInput | PumpBrineInput) -> Position | None:
    return line.position if line is not None else given.position


def _no_solution(cure: JudgedCure) -> Iterator[Guard]:
    """The targets contradict each other: salt and sugar together would be more than the whole brine."""
    if cure.given.is_brine:
        yield _contradiction(WATER, cure.forms.brine, NO_SOLUTION, cure.given.position)
    yield _contradiction(NOTHING, cure.forms.nitrate, NO_SOLUTION, cure.given.position)


def _contradiction(value: Value, limit: Value, words: tuple[str, str], at: Position | None) -> Guard:
    slug, (message, hint) = "no-solution", words
    return Guard(
        slug=slug,
        group=slug,
        value=value,
        limit=limit,
        message=(message,),
        hint=(hint,),
        position=at,
        stops=True,
    )


def _nitrate(cure: JudgedCure) -> Iterator[Guard]:
    given = cure.given
    pumped = given.pump_brine.curing_salt if given.pump_brine else None
    line = given.nitrate or given.curing_salt or pumped
    figure = cure.most_nitrate.nitrate_ppm
    if line is None or figure.over == NOTHING:
        return
    limit, message, hint, slug = _nitrate_words(cure)
    yield Guard(
        slug=slug,
        group="nitrate",
        value=figure,
        limit=constant(limit),
        message=message,
        hint=hint,
        position=line.position,
    )


def _nitrate_words(cure: JudgedCure) -> tuple[Fraction, Text, Text, str]:
    """Limit [ppm], sentence, hint and slug: none at all in belly and in most fish."""
    given, none = cure.given, Fraction(0)
    if given.has_belly:
        message = "Nitrate is never allowed in belly (9 CFR 424.22(b)), and this cure brings some."
        return none, (message,), ("Use a curing salt with nitrite alone.",), "nitrate-in-belly"
    if given.fish is not None and not given.fish_nitrate_ppm:
        message = (
            f"Nitrate is not allowed in {given.fish}: 21 CFR 172.170(a)(1) lists sablefish, salmon and shad."
        )
        hint = "Leave it out and cure with salt alone, kept cold and cooked through."
        return none, (message,), (hint,), "fish-nitrite"
    limit = cure.tables.constant("nitrate_limit_ppm")
    above: Text = (
        Decimal(value=cure.most_nitrate.nitrate_ppm, places=1),
        f" ppm ingoing nitrate {BASIS[given.method]} is above "
        f"the limit of {show_decimal(limit, places=0)} ppm for home cures (21 CFR 172.170(a)(2)).",
    )
    return limit, above, _less_nitrate(cure, limit), "nitrate-above-limit"


def _less_nitrate(cure: JudgedCure, limit: Fraction) -> Text:
    """The most of what brings the nitrate; what the needle brings is lessened in its own brine."""
    given, forms = cure.given, cure.most_nitrate
    by_itself = given.nitrate is not None
    share = given.nitrate_share if by_itself else given.kind.nitrate
    if not share:
        return ("Pump less, or mix the pump brine with a curing salt that has no nitrate.",)
    weight = forms.nitrate if by_itself else forms.curing_salt
    most = most_nitrate(weight, share, forms, limit, is_brine=given.is_brine)
    return (
        "At most ",
        Either(value=most, above=NOTHING, then=(down(most, TENTH_G),), otherwise=("0",)),
        " g of it for this meat, or more meat, or nitrite alone, which works without months of waiting.",
    )


def _nitrite(cure: JudgedCure) -> Iterator[Guard]:
    """The needle by itself, then the figure that the method is judged by; what enters by a last day is not here."""
    given, limit = cure.given, cure.limit
    line = given.curing_salt or (given.pump_brine.curing_salt if given.pump_brine else None)
    if line is None or limit is None:
        return
    yield from _needle(cure, limit)
    figure, basis, hint = cure.forms.nitrite_ppm, BASIS[given.method], ways_out(cure.nitrite, limit)
    if given.pick_up is not None:
        assert cure.forms.pick_up_ppm is not None, "a short cure has a figure by its pick-up"
        figure = cure.forms.pick_up_ppm
        basis = f"by a pick-up of {show_decimal(PER_CENT * given.pick_up, places=1)} %"
        hint = ways_out_of_pick_up(cure.nitrite, given.pick_up, limit)
    yield _above_limit(cure, figure, limit, basis, hint, line)


def _above_limit(
    cure: JudgedCure, ppm: Figure | Form, limit: NitriteLimit, basis: str, hint: Text, line: CureLine
) -> Guard:
    """Which limit is passed, by how much, and whose limit it is."""
    message: Text = (
        Decimal(value=ppm, places=2),
        f" ppm ingoing nitrite {basis} is above the limit of "
        f"{show_decimal(limit.limit_ppm, places=2)} ppm for {CUTS[limit.cut]}, {METHODS[limit.method]} "
        f"({_issuer(limit, cure.tables)}, {limit.locator}).",
    )
    return Guard(
        slug="above-limit",
        group="nitrite",
        value=ppm,
        limit=constant(limit.limit_ppm),
        message=message,
        hint=hint,
        position=line.position,
    )


def _issuer(limit: NitriteLimit, tables: Tables) -> str:
    return tables.sources[limit.source].citation.partition(",")[0]


def _needle(cure: JudgedCure, limit: NitriteLimit) -> Iterator[Guard]:
    """What the needle brings is in the meat at once: it is held against the limit by itself, too."""
    brine, pump = cure.pump_brine, cure.given.pump_brine
    if brine is None or pump is None or pump.curing_salt is None or not brine.nitrite_ppm:
        return
    ppm = brine.nitrite_ppm / cure.given.lean_share
    grams = Form(cb=brine.curing_salt_g * limit.limit_ppm / ppm * NEEDLE_ROOM)
    hint: Text = (
        "At most ",
        down(grams, HUNDREDTH),
        " g of curing salt in that pump brine, or pump less of it, or write a target under `pump brine:`, "
        f"curing salt: {show_decimal(limit.limit_ppm, places=0)} ppm or less.",
    )
    yield _above_limit(cure, constant(ppm), limit, "by the needle alone", hint, pump.curing_salt)


def _accelerator(cure: JudgedCure) -> Iterator[Guard]:
    line, figure = cure.given.accelerator, cure.lightest.accelerator_ppm
    if line is None:
        return
    acid = "acid" in line.name.lower()
    # An accelerator that is not named may be either; the acid's limit is the lower one.
    key = "ascorbic_acid_limit_ppm" if acid or not line.name else "ascorbate_limit_ppm"
    if cure.given.has_belly and not acid:
        key = "belly_ascorbate_ppm"
    limit = cure.tables.constant(key)
    yield Guard(
        slug="accelerator-above-limit",
        group="accelerator",
        value=figure,
        limit=constant(limit),
        message=(
            Decimal(value=figure, places=1),
            f" ppm of {line.name or 'it'} is above the limit "
            f"of {show_decimal(limit, places=3)} ppm (9 CFR 424.21(c), 424.22(b)).",
        ),
        hint=(f"Write a target: {show_number(round_down(limit, TEN_G))} ppm or less.",),
        position=line.position,
    )


def _negative_salt(cure: JudgedCure) -> Guard:
    given, forms = cure.given, cure.forms
    own = forms.curing_salt.times(given.kind.salt)
    base = MEAT.plus(WATER) if given.is_brine else MEAT
    least = up(Figure(factor=PER_CENT, over=own, under=base), HUNDREDTH)
    return Guard(
        slug="negative-salt",
        group="negative salt",
        value=NOTHING,
        limit=forms.salt,
        message=(
            "The curing salt alone brings ",
            Decimal(value=own, places=1),
            " g of salt, more than the target asks for.",
        ),
        hint=("Ask for at least ", least, " % salt, or for less curing salt."),
        position=_at(given.salt, given),
    )


def _saturation(cure: JudgedCure) -> Iterator[Guard]:
    # Salt that may be too much and may be not lies on the bottom at the worst: only what is so at its lightest is.
    strength, saturated = cure.weakest.strength_percent, cure.saturated_percent
    if strength is None:
        return
    yield Guard(
        slug="salt-beyond-saturation",
        group="saturation",
        value=strength,
        limit=constant(saturated),
        message=(
            Decimal(value=strength, places=2),
            f" % salt is more than water can hold ({show_decimal(saturated, places=3)} % at 60 °F).",
        ),
        hint=("Use less salt or more water.",),
        position=_at(cure.given.salt, cure.given),
    )


def _too_little(cure: JudgedCure) -> Iterator[Guard]:
    """Less curing salt than a scale shows: rounded down it would be none, beside a figure that says there is some."""
    line = cure.given.curing_salt
    if line is None or cure.forms.curing_salt == NOTHING:
        return
    yield Guard(
        slug="too-little-to-weigh",
        group="too little",
        value=constant(HUNDREDTH),
        limit=cure.forms.curing_salt,
        message=("There is too little curing salt in this to be weighed: less than 0.01 g.",),
        hint=("Make more of it, and keep or freeze what is not needed.",),
        position=line.position,
    )


def _pump(cure: JudgedCure) -> Iterator[Guard]:
    share, pump = cure.given.pump_share, cure.pump_brine
    if share is None:
        return
    taken = MEAT.times(share)
    mixed = cure.forms.brine if pump is None else Form(cb=pump.whole_g)
    yield Guard(
        slug="pump-over-brine",
        group="pump",
        value=taken,
        limit=mixed,
        message=(
            "The pump takes ",
            Decimal(value=taken, places=0),
            " g, and the brine it comes from is ",
            Decimal(value=mixed, places=0),
            " g.",
        ),
        hint=("Mix more brine or pump less.",),
        position=cure.given.position,
    )


def _pump_brine(cure: JudgedCure) -> Iterator[Guard]:
    """What a pump brine by itself cannot be, and what it leaves no room for beside it."""
    brine, pump = cure.pump_brine, cure.given.pump_brine
    if brine is None or pump is None:
        return
    yield _contradiction(Form(cb=brine.water_g), Form(cb=brine.whole_g), NO_PUMP_BRINE, pump.position)
    yield _negative_pump_salt(brine, pump, cure.saturated_percent)
    yield _pump_saturation(brine, pump, cure.saturated_percent)
    if pump.curing_salt is not None:
        yield Guard(
            slug="too-little-to-weigh",
            group="too little for the pump",
            value=constant(HUNDREDTH),
            limit=Form(cb=brine.curing_salt_g),
            message=("There is too little curing salt in the pump brine to be weighed: less than 0.01 g.",),
            hint=("Mix more of it, or leave its curing salt out.",),
            position=pump.curing_salt.position,
        )
    line = cure.given.curing_salt
    if line is not None and line.target is not None and pump.curing_salt is not None:
        words = (
            f"The needle brings {show_decimal(brine.nitrite_ppm, places=0)} ppm nitrite on the green weight, "
            f"more than the target of {show_decimal(line.target.value, places=2)} ppm for meat and brine "
            "together leaves room for.",
            "Leave `curing salt:` out beside the pump brine, or mix the pump brine with less of it.",
        )
        yield _contradiction(NOTHING, cure.forms.curing_salt, words, line.position)


def _negative_pump_salt(brine: PumpBrineResult, pump: PumpBrineInput, saturated: Fraction) -> Guard:
    """The salt of its curing salt over all of it is a share that is enough for the target, by ppm or by amount."""
    own = brine.kind.salt * brine.curing_salt_g
    least = round_up(PER_CENT * own / brine.whole_g, HUNDREDTH)
    ask = f"Ask for at least {show_decimal(least, places=2)} % salt in it, or for less curing salt."
    if least > saturated:
        ask = "Ask for less curing salt in it, or pump more of it."
    return Guard(
        slug="negative-salt",
        group="negative salt of the pump",
        value=NOTHING,
        limit=Form(cb=brine.salt_g),
        message=(
            "The curing salt of the pump brine alone brings ",
            Decimal(value=Form(cb=own), places=1),
            " g of salt, more than its target asks for.",
        ),
        hint=(ask,),
        position=_at(pump.salt, pump),
    )


def _pump_saturation(brine: PumpBrineResult, pump: PumpBrineInput, saturated: Fraction) -> Guard:
    return Guard(
        slug="salt-beyond-saturation",
        group="saturation of the pump",
        value=constant(brine.strength_percent),
        limit=constant(saturated),
        message=(
            f"{show_decimal(brine.strength_percent, places=2)} % salt in the pump brine is more than water can hold "
            f"({show_decimal(saturated, places=3)} % at 60 °F).",
        ),
        hint=("Use less salt or more water in it.",),
        position=_at(pump.salt, pump),
    )


def ways_out(case: NitriteForms, limit: NitriteLimit) -> Text:
    """Three worked ways to come down to the limit, each by itself: less curing salt, more meat, more water.

    There is always a most above nothing: where the needle alone is too much, that is said before, and this is not.
    """
    most, others = most_curing_salt(case, limit.limit_ppm), _other_ways(case, limit)
    return ("At most ", *_fine(most), " g of this curing salt for this meat", *_joined(others), ".")


def _other_ways(case: NitriteForms, limit: NitriteLimit) -> list[Text]:
    ways: list[Text] = []
    # More meat takes more of the pump brine with it, so beside a needle it is no way out.
    if case.needle is not None:
        ways.append(("pump less, or mix the pump brine with less curing salt",))
    else:
        meat = up(least_meat(case, limit.limit_ppm), TEN_G)
        ways.append(("at least ", meat, " g of meat for this curing salt"))
    if case.is_brine:
        water = up(least_water(case, limit.limit_ppm), TEN_G)
        ways.append(("at least ", water, " g of water with the same salt and sugar"))
    else:
        target = f"write a target, curing salt: {show_decimal(limit.limit_ppm, places=2)} ppm or less"
        ways.append((f"{target}, and the book weighs it",))
    return ways


def _joined(ways: list[Text]) -> Text:
    return tuple(part for way in ways for part in (", or ", *way))


def _fine(grams: Value) -> Text:
    """To 0.1 g, down; below a gram to 0.01 g."""
    below, above = (down(grams, HUNDREDTH),), (down(grams, TENTH_G),)
    return (Either(value=constant(1), above=grams, then=below, otherwise=above),)


def ways_out_of_pick_up(case: NitriteForms, pick_up: Fraction, limit: NitriteLimit) -> Text:
    """Ways to come down to the limit on the pick-up figure."""
    return (
        "At most ",
        down(most_curing_salt_by_pick_up(case, pick_up, limit.limit_ppm), TENTH_G),
        " g of this curing salt in this brine, or at least ",
        up(least_water_by_pick_up(case, pick_up, limit.limit_ppm), TEN_G),
        " g of water with the same salt and sugar.",
    )


def facts_are_known(
    given: CureInput, forms: CureForms, limit: NitriteLimit | None, shower: Shower, log: ProblemLog
) -> bool:
    """False where a missing fact leaves nothing to work out; each missing fact is named."""
    at = given.position
    if given.has_belly and given.skin_on is None and given.has_nitrite:
        log.add(
            "skin-unknown",
            at,
            "Nitrite in belly is counted without the skin, and the recipe does not say whether the skin is on.",
            "Write `skin: on` or `skin: off` under `meat:`.",
        )
    if given.is_brine and given.water_g is None:
        log.add(
            "water-unknown",
            given.water_position or at,
            "The water of the brine is not known, so nothing can be worked out.",
            "Write its volume or weight.",
        )
    if given.pick_up is not None and given.pump_brine is not None:
        log.add(
            "short-cure-pumped",
            at,
            "A short cure together with a separately mixed pump brine is not worked out.",
            "Leave the meat until even (no `pick-up`), or pump from the cover brine (no `pump brine`).",
        )
    if given.meat_g is None:
        message = "The weight of the meat is not known, so the ingoing nitrite cannot be worked out."
        fit = _meat_that_fits(given, forms, limit, shower)
        log.add("meat-unknown", at, message, f"Weigh the raw meat and write its green weight.{fit}")
    return not log.has_errors


def _meat_that_fits(given: CureInput, forms: CureForms, limit: NitriteLimit | None, shower: Shower) -> str:
    """The least meat that the weights as written would fit; empty where that cannot be told."""
    by_amount = given.curing_salt is not None and given.curing_salt.amount is not None
    if limit is None or not by_amount or (given.is_brine and given.water_g is None):
        return ""
    least = least_meat(nitrite_forms(given, forms, None), limit.limit_ppm)
    water_g = given.water_g or Fraction(0)
    setting = Setting(batches=given.batches, meat_g=Fraction(0), water_g=water_g)
    reader = Reader(setting=setting, shower=shower)
    # Up, so that what is named fits; below nothing the brine alone is enough.
    grams = round_up(max(reader.value(least), Fraction(0)), TEN_G)
    return (
        f" As written it would fit no less than {show_number(grams)} g of meat "
        f"(limit {show_decimal(limit.limit_ppm, places=2)} ppm, {limit.locator})."
    )


def judge(
    cure: JudgedCure, guards: tuple[Guard, ...], entered: Entered | None, reader: Reader, log: ProblemLog
) -> None:
    """Every broken guard goes to the log; a short cure whose brine would pass the limit when even is looked into."""
    broken = reader.broken(guards)
    for guard in broken:
        log.add(guard.slug, guard.position, reader.text(guard.message), reader.text(guard.hint))
    if any(guard.stops or guard.group == "nitrite" for guard in broken):
        return
    limit = cure.limit
    if limit is None or cure.given.pick_up is None:
        return
    whole = reader.value(cure.forms.nitrite_ppm)
    if whole > limit.limit_ppm:
        others = reader.text(ways_out(cure.nitrite, limit))
        if entered is None:
            _cannot_judge(cure.given, whole, others, log)
        elif entered.at_last > limit.limit_ppm:
            _too_long(cure, entered, limit, whole, others, log)


def _cannot_judge(given: CureInput, whole_ppm: Fraction, others: str, log: ProblemLog) -> None:
    assert given.curing_salt is not None
    facts = {
        "the thickness of the thinnest piece": given.thickness_mm,
        "the length of the cure": given.days,
    }
    missing = [name for name, value in facts.items() if value is None]
    unknown = (
        f"{' and '.join(missing) or 'what enters in time'} {'are' if len(missing) > 1 else 'is'} not known"
    )
    log.add(
        "short-cure-unknown",
        given.curing_salt.position,
        f"Left until even this brine would put {show_decimal(whole_ppm, places=0)} ppm nitrite into the meat, and "
        f"{unknown}, so a short cure cannot be judged.",
        "Write `thickness:` (and `pieces: 1`, or `thinnest:`) under `meat:`, and the length of the cure stage. "
        f"Or: {others}",
    )


def _too_long(
    cure: JudgedCure, entered: Entered, limit: NitriteLimit, whole_ppm: Fraction, others: str, log: ProblemLog
) -> None:
    """Judged on the recipe's own last day, not on the figure when even, which it never comes to."""
    assert cure.given.curing_salt is not None
    log.add(
        "short-cure-too-long",
        cure.given.curing_salt.position,
        f"By its last day up to {show_decimal(entered.at_last, places=0)} ppm nitrite can have entered "
        f"(left until even {show_decimal(whole_ppm, places=0)} ppm), above the limit of "
        f"{show_decimal(limit.limit_ppm, places=2)} ppm ({_issuer(limit, cure.tables)}, {limit.locator}). "
        f"{last_time(entered.last_hour_within(limit.limit_ppm))}.",
        f"Take the meat out by then, or mix a weaker brine. {others}",
    )


def last_time(hours: int) -> str:
    """A last hour [h] as the sentence a cook reads: in whole days where there are any, down."""
    days = hours // HOURS
    if days >= 1:
        return f"The last day allowed is day {days}"
    if hours >= 1:
        return f"The last day allowed is the first, and on it no more than {hours} h"
    return "No day is allowed: within the first hour more than the limit can have entered"


def refuse_fish(given: CureInput, log: ProblemLog) -> None:
    """Nitrite in a fish that no law lists."""
    log.add(
        "fish-nitrite",
        _at(given.curing_salt, given),
        f"Nitrite is not allowed in {given.fish}: 21 CFR 172.175 lists only some smoked fish.",
        "Leave the curing salt out and cure with salt alone, kept cold and cooked through.",
    )


def refuse_pump_brine(pump: PumpBrineInput, log: ProblemLog) -> None:
    """A pump brine whose water, or whose share of the meat, is not told."""
    log.add(
        "water-unknown" if pump.water_g is None else "pump-unknown",
        pump.position,
        "A pump brine needs its own water and how much of it is injected.",
        "Write `water:` under `pump brine:`, and `pump:` as a share of the meat, such as 10 %.",
    )
