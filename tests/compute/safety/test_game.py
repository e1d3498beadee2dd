"""Wild game: 165 °F with its reasons, deer disease, lead, organs, advisories, the carcass. Met, not met, not to be told."""

from __future__ import annotations

import pytest

from tests.compute.safety.heated import (
    BOOK,
    Make,
    box_of,
    cook,
    errors,
    of_lines,
    of_meat,
    silent,
    the_box,
    the_error,
)

SICK = BOOK.replace("area: no", "area: yes")
UNTOLD = "title: A tiny book\nchapters: [Pots]\n"
LEAD = BOOK.replace("shot: none", "shot: lead")
ACCEPT = "accept:\n  wild-game-165: we cook deer to 160 by thermometer\n"
DEER = "animal: deer; cut: hind leg; weight: 5 lb"
PUMP = "cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: 100 ppm\n  pump: 8 %\n"
DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"


# 165 °F: MMWR 2024;73(20); Health Canada 2012

REASONS = [
    ("bear", "Trichinella, which home freezing, curing, drying and smoking do not kill", "mmwr-73-20"),
    ("wild boar", "Trichinella and Brucella", "ifas-2025"),
    ("cougar", "Trichinella", "cdc-trichinellosis"),
    ("deer", "Toxoplasma", "maldonado-2017"),
    ("pronghorn", "Toxoplasma", "maldonado-2017"),
    ("rabbit", "tularaemia", "mesa-2014"),
    ("goose", "avian influenza", "hhs-usgs-2007"),
    ("pheasant", "avian influenza", "aphis-2015"),
]


@pytest.mark.parametrize(("animal", "reason", "source"), REASONS)
def test_all_reasons_for_165_stand_in_one_box(make_book: Make, animal: str, reason: str, source: str) -> None:
    found = cook(make_book, of_meat(f"animal: {animal}; weight: 3 lb", "roast: 2 h to 165 °F inside"))
    box = the_box(found, "wild-game-165")
    assert reason in box.because
    assert source in box.sources
    assert "165 °F (74 °C)" in box.text
    assert errors(found) == []


@pytest.mark.parametrize(
    "animal", ["bear", "wild boar", "javelina", "wolf", "raccoon", "duck", "wild turkey", "quail"]
)
def test_high_risk_game_below_165_is_an_error_that_nobody_can_accept(make_book: Make, animal: str) -> None:
    found = cook(
        make_book, of_meat(f"animal: {animal}; weight: 3 lb", "roast: 2 h to 160 °F inside", more=ACCEPT)
    )
    problem = the_error(found, "high-risk-game-165")
    assert problem.slug == "contradicts-danger"
    assert "heated only to 160 °F (71.1 °C) inside; wild game is cooked to 165 °F (74 °C)" in problem.message
    assert "to 165 °F inside" in problem.hint
    assert problem.position is not None
    assert problem.position.line == 11
    assert box_of(found, "wild-game-165") is None


@pytest.mark.parametrize("animal", ["deer", "elk", "pronghorn", "rabbit", "beaver"])
def test_other_game_below_165_is_an_error_too(make_book: Make, animal: str) -> None:
    problem = the_error(
        cook(make_book, of_meat(f"animal: {animal}; weight: 3 lb", "fry: 9 min to 145 °F inside")),
        "wild-game-165",
    )
    assert problem.slug == "contradicts-warning"


def test_pig_gone_wild_is_judged_as_wild_pig_and_a_wild_tom_as_a_bird(make_book: Make) -> None:
    for animal in ("pork", "turkey"):
        text = of_meat(f"animal: {animal}; weight: 3 lb; source: wild", "roast: 2 h to 155 °F inside")
        the_error(cook(make_book, text), "high-risk-game-165")


def test_farmed_elk_is_not_wild(make_book: Make) -> None:
    text = of_meat("animal: elk; weight: 3 lb; source: farmed", "roast: 2 h to 160 °F inside")
    found = cook(make_book, text)
    assert errors(found) == []
    assert box_of(found, "wild-game-165") is None
    assert (
        box_of(
            cook(make_book, of_lines("2 lb farmed venison", course=("roast: 1 h to 160 °F inside",))),
            "wild-game-165",
        )
        is None
    )


@pytest.mark.parametrize(
    "course", [("simmer: 3 h",), ("roast: 2 h at 300 °F in the oven",), ("thaw: in the fridge", "rest: 1 h")]
)
def test_untold_heat_says_what_is_missing(make_book: Make, course: tuple[str, ...]) -> None:
    found = cook(make_book, of_meat(DEER, *course))
    assert "course" in the_box(found, "wild-game-165").missing
    assert errors(found) == []


# which stage is judged


@pytest.mark.parametrize(
    "course",
    [
        ("hot smoke: 6 h at 225 °F to 150 °F inside", "braise: 2 h to 165 °F inside"),
        ("braise: 3 h to 180 °F inside", "fry: 5 min"),
        ("roast: 2 h to 158 °F inside", "rest: 20 min to 165 °F inside"),
        ("roast: 2 h to 165 °F inside", "rest: 20 min to 150 °F inside"),
        ("roast: 2 h to 165 °F inside", "cool: 2 h to 40 °F inside"),
        ("roast: 2 h at 180 °F to 165 °F inside",),
        ("roast: 2 h to 74 °C inside",),
    ],
)
def test_course_that_gets_there(make_book: Make, course: tuple[str, ...]) -> None:
    found = cook(make_book, of_meat(DEER, *course))
    assert [problem.message for problem in errors(found)] == []
    assert the_box(found, "wild-game-165").missing == ()


@pytest.mark.parametrize(
    ("course", "words"),
    [
        (("roast: 9 h at 150 °F to 165 °F inside",), "in air of no more than 150 °F (65.6 °C)"),
        (("cook: 6 h at 140 °F",), "in air of no more than 140 °F (60 °C)"),
        (("braise: 3 h to 165 °F inside", "reheat: 1 h to 140 °F inside"), "only to 140 °F (60 °C) inside"),
        (("hot smoke: 4 h to 150 °F inside", "hot smoke: 2 h at 160 °F"), "only to 150 °F (65.6 °C) inside"),
        (("roast: 2 h to 164 °F inside",), "only to 164 °F (73.3 °C) inside"),
        (("roast: 2 h to 73 °C inside",), "only to 163.4 °F (73 °C) inside"),
    ],
)
def test_course_that_does_not(make_book: Make, course: tuple[str, ...], words: str) -> None:
    assert words in the_error(cook(make_book, of_meat(DEER, *course)), "wild-game-165").message


def test_colder_first_stage_is_not_the_last_word(make_book: Make) -> None:
    course = ("hot smoke: 4 h to 150 °F inside", "braise: 3 h")
    found = cook(make_book, of_meat(DEER, *course))
    assert errors(found) == []
    assert the_box(found, "wild-game-165").missing == ("course",)


# 160 °F accepted: house choice between NCHFP 2002, 6.1.3, and MMWR 2024;73(20)


def test_160_is_accepted_for_a_whole_unpumped_cut_of_deer(make_book: Make) -> None:
    found = cook(make_book, of_meat(DEER, "roast: 2 h to 160 °F inside", more=ACCEPT))
    assert errors(found) == []
    box = the_box(found, "wild-game-165")
    assert box.accepted == "we cook deer to 160 by thermometer"
    assert "160 °F (71.1 °C)" in box.because
    found = cook(make_book, of_meat(DEER, "roast: 2 h to 160 °F inside"), book=BOOK + ACCEPT)
    assert errors(found) == []


def test_160_can_be_accepted_is_told_where_it_can(make_book: Make) -> None:
    hint = the_error(cook(make_book, of_meat(DEER, "roast: 2 h to 160 °F inside")), "wild-game-165").hint
    assert "`accept:`" in hint
    hint = the_error(cook(make_book, of_meat(DEER, "roast: 2 h to 150 °F inside")), "wild-game-165").hint
    assert "`accept:`" not in hint


@pytest.mark.parametrize(
    "text",
    [
        of_meat(DEER, "roast: 2 h to 159 °F inside", more=ACCEPT),
        of_meat(DEER, "cure: 5 days in the fridge", "hot smoke: 6 h to 160 °F inside", more=PUMP + ACCEPT),
        of_meat(f"{DEER}; form: ground", "fry: 9 min to 160 °F inside", more=ACCEPT),
        of_meat(DEER, "grind", "fry: 9 min to 160 °F inside", more=ACCEPT),
        of_meat(
            "animal: deer; cut: shoulder, boned and rolled; weight: 3 lb",
            "roast: 2 h to 160 °F inside",
            more=ACCEPT,
        ),
        of_meat("animal: rabbit; weight: 3 lb", "roast: 2 h to 160 °F inside", more=ACCEPT),
        of_lines("2 lb venison", "1 lb rabbit", course=("roast: 2 h to 160 °F inside",), more=ACCEPT),
    ],
)
def test_160_is_accepted_for_nothing_else(make_book: Make, text: str) -> None:
    problem = the_error(cook(make_book, text), "wild-game-165")
    assert "Only 160 °F (72 °C) for whole, unpumped cuts of the deer family can be accepted" in problem.hint


# Trichinella: CDC, Prevention and Control, 2019; MMWR 2024;73(20)


@pytest.mark.parametrize("animal", ["bear", "wild boar", "fox", "walrus"])
@pytest.mark.parametrize(
    "course",
    [
        ("cure: 20 days in the fridge", "dry: 60 days at 55 °F in the cellar"),
        ("freeze: 110 days at 0 °F in the freezer", "cold smoke: 12 h at 75 °F"),
        ("grind", "stuff", "ferment: 2 days at 70 °F"),
        ("cure: 5 days in the fridge", "hot smoke: 4 h to 145 °F inside"),
    ],
)
def test_cure_smoke_and_frost_are_no_heat(make_book: Make, animal: str, course: tuple[str, ...]) -> None:
    problem = the_error(
        cook(make_book, of_meat(f"animal: {animal}; weight: 4 lb; cut: ham", *course, more=DRY)),
        "trichinella",
    )
    assert problem.slug == "contradicts-danger"


def test_cured_bear_for_the_pot_is_no_error_and_its_page_says_why(make_book: Make) -> None:
    text = of_meat(
        "animal: bear; cut: ham; weight: 9 lb",
        "cure: 20 days in the fridge",
        more=f"{DRY}eat: after cooking\n",
    )
    found = cook(make_book, text)
    assert silent(found, "trichinella")
    assert "Trichinella" in the_box(found, "eat-after-cooking").because


def test_raw_cured_deer_asks_whether_it_is_cooked_later(make_book: Make) -> None:
    """Maldonado and Read 2017: smoked, brined or dried infected meat can still infect."""
    text = of_meat(DEER, "cure: 14 days in the fridge", "dry: 1 day in the fridge", more=DRY)
    box = the_box(cook(make_book, text), "wild-game-165")
    assert box.missing == ("course", "eat")
    assert "brined or dried meat can still infect" in box.because


def test_canned_venison_is_heated(make_book: Make) -> None:
    """USDA Complete Guide to Home Canning: 240 °F in a pressure canner at 10 to 11 lb."""
    jars = of_lines("4 lb venison, diced", course=("jar: 75 min in the pressure canner",))
    assert the_box(cook(make_book, jars), "wild-game-165").missing == ()
    untold = of_lines("4 lb venison, diced", course=("jar: 75 min",))
    assert the_box(cook(make_book, untold), "wild-game-165").missing == ("course",)


@pytest.mark.parametrize(
    "line", ["2 lb bear and mushrooms", "2 lb bear meat and pork fat", "2 lb bear and lard and eggs"]
)
def test_meat_before_an_and_is_meat(make_book: Make, line: str) -> None:
    """What is no meat behind `and` takes nothing from the bear before it."""
    found = cook(make_book, of_lines(line, course=("roast: 2 h at 325 °F to 140 °F inside",)))
    assert "heated only to 140 °F" in the_error(found, "high-risk-game-165").message


@pytest.mark.parametrize(
    "line", ["1 cup duck and goose fat", "1 qt bear and elk stock", "2 duck and goose eggs"]
)
def test_fat_of_two_animals_is_no_meat(make_book: Make, line: str) -> None:
    assert silent(cook(make_book, of_lines(line, course=("roast: 1 h",))), "wild-game-165")


@pytest.mark.parametrize("place", ["fridge", "freezer"])
def test_a_jar_in_the_cold_is_no_heat(make_book: Make, place: str) -> None:
    """What is put by in the fridge was heated by what came before it, and by nothing since."""
    text = of_meat(DEER, "roast: 2 h at 325 °F to 140 °F inside", f"jar: in the {place}")
    assert "heated only to 140 °F" in the_error(cook(make_book, text), "wild-game-165").message


def test_venison_that_nobody_cooks_asks_for_eat_and_course(make_book: Make) -> None:
    found = cook(make_book, of_meat(DEER, "trim: 1 h", "pack: vacuum"))
    assert the_box(found, "wild-game-165").missing == ("course", "eat")


# deer disease: CDC, About CWD; Texas Parks and Wildlife


COOKED = "simmer: 3 h to 165 °F inside"


@pytest.mark.parametrize(
    ("book", "boxed", "missing"),
    [(BOOK, False, ()), (SICK, True, ()), (UNTOLD, True, ("deer disease area",))],
)
def test_deer_disease_goes_by_the_book(
    make_book: Make, book: str, boxed: bool, missing: tuple[str, ...]
) -> None:
    found = box_of(cook(make_book, of_meat(DEER, COOKED), book=book), "deer-disease")
    assert (found is not None) is boxed
    assert found is None or found.missing == missing


@pytest.mark.parametrize("animal", ["pronghorn", "rabbit", "wild boar", "goose"])
def test_other_animals_have_no_deer_disease(make_book: Make, animal: str) -> None:
    found = cook(
        make_book, of_meat(f"animal: {animal}; cut: neck; bone: in; weight: 3 lb", COOKED), book=SICK
    )
    assert silent(found, "deer-disease")
    assert silent(found, "deer-bones")


@pytest.mark.parametrize(
    "line", ["2 lb deer brains", "3 lb venison spine", "1 elk head", "1 lb deer spleen, diced"]
)
def test_parts_of_a_deer_are_refused_where_the_disease_is(make_book: Make, line: str) -> None:
    found = cook(make_book, of_lines(line, course=(COOKED,)), book=SICK)
    assert the_error(found, "deer-disease-parts").slug == "contradicts-danger"
    found = cook(make_book, of_lines(line, course=(COOKED,)), book=UNTOLD)
    assert the_box(found, "deer-disease-parts").missing == ("deer disease area",)
    assert errors(found) == []
    assert silent(cook(make_book, of_lines(line, course=(COOKED,)), book=BOOK), "deer-disease-parts")


@pytest.mark.parametrize(
    "line", ["2 lb venison, spine removed", "2 lb venison eye of round", "2 lb elk shank"]
)
def test_no_part_where_none_is_meant(make_book: Make, line: str) -> None:
    assert silent(cook(make_book, of_lines(line, course=(COOKED,)), book=SICK), "deer-disease-parts")


@pytest.mark.parametrize(
    ("text", "boxed"),
    [
        (of_lines("5 lb deer bones", course=(COOKED,)), True),
        (of_lines("5 lb deer leg bones", course=(COOKED,)), False),
        (of_meat("animal: deer; cut: neck; bone: in; weight: 4 lb", COOKED), True),
        (of_meat("animal: deer; cut: neck; bone: out; weight: 4 lb", COOKED), False),
        (of_meat("animal: elk; cut: fore shank; bone: in; weight: 4 lb", COOKED), False),
    ],
)
def test_bones_of_the_spine(make_book: Make, text: str, boxed: bool) -> None:
    """Our own inference from the list of parts and from advice against cutting the spine."""
    assert (box_of(cook(make_book, text, book=SICK), "deer-bones") is not None) is boxed


# lead: Minnesota DNR 2008; UK FSA 2012 and 2015


@pytest.mark.parametrize(
    ("book", "lines", "boxed", "missing"),
    [
        (LEAD, ("1 rabbit",), True, ()),
        (LEAD, ("1 rabbit", "2 cups red wine"), True, ()),
        (BOOK, ("1 rabbit", "2 cups red wine"), False, ()),
        (BOOK.replace("none", "copper"), ("2 lb ground venison",), False, ()),
        (UNTOLD, ("1 rabbit", "2 cups cider vinegar"), True, ("shot",)),
        (UNTOLD, ("2 lb ground venison",), True, ("shot",)),
        (UNTOLD, ("1 rabbit", "1 qt water"), False, ()),
        (UNTOLD, ("2 lb pork", "2 cups red wine"), False, ()),
        (LEAD, ("2 lb trout", "1 lemon"), False, ()),
        (UNTOLD, ("1 rabbit", "1 lemon, zest only"), False, ()),
        (LEAD, ("2 lb beaver",), False, ()),
    ],
)
def test_lead(
    make_book: Make, book: str, lines: tuple[str, ...], boxed: bool, missing: tuple[str, ...]
) -> None:
    found = box_of(cook(make_book, of_lines(*lines, course=(COOKED,)), book=book), "lead-shot")
    assert (found is not None) is boxed
    assert found is None or found.missing == missing


def test_lead_names_what_makes_it_worse(make_book: Make) -> None:
    """Minnesota DNR: 27 % of ground packs, 2 % of whole cuts; acid second-hand from the FSA, so softer."""
    lines = ("2 lb ground venison", "1 can tomatoes", "1 tbsp red wine vinegar")
    because = the_box(cook(make_book, of_lines(*lines, course=(COOKED,)), book=LEAD), "lead-shot").because
    assert "27 %" in because
    assert "tomatoes and red wine vinegar is sour, and acid is commonly said" in because


# organs, mergansers, waterfowl, fish: Ontario, New Hampshire, Penobscot; NY DOH; EPA and FDA


@pytest.mark.parametrize("line", ["1 lb moose liver", "2 moose kidneys"])
def test_moose_organs_are_refused_unless_accepted(make_book: Make, line: str) -> None:
    problem = the_error(cook(make_book, of_lines(line, course=(COOKED,))), "moose-organs")
    assert "no liver of moose" in problem.message or "no kidneys of moose" in problem.message
    accepted = "accept:\n  moose-organs: our own health office allows it\n"
    found = cook(make_book, of_lines(line, course=(COOKED,), more=accepted))
    assert errors(found) == []
    assert the_box(found, "moose-organs").accepted == "our own health office allows it"


def test_deer_liver_is_boxed_and_other_meat_is_not(make_book: Make) -> None:
    assert (
        "1 lb (450 g) a week"
        in the_box(cook(make_book, of_lines("1 lb deer liver", course=(COOKED,))), "deer-organs").text
    )
    assert silent(cook(make_book, of_lines("1 lb moose steak", course=(COOKED,))), "moose-organs")
    assert silent(cook(make_book, of_lines("1 lb beef liver", course=(COOKED,))), "deer-organs")


def test_merganser_is_never_eaten(make_book: Make) -> None:
    problem = the_error(
        cook(make_book, of_meat("animal: merganser; weight: 2 lb", "simmer: 4 h to 190 °F inside")),
        "merganser",
    )
    assert "nobody eats mergansers" in problem.message
    assert silent(cook(make_book, of_meat("animal: mallard; weight: 2 lb", COOKED)), "merganser")


@pytest.mark.parametrize(
    ("text", "slug", "boxed"),
    [
        (of_meat("animal: goose; weight: 6 lb", COOKED), "waterfowl-advice", True),
        (of_meat("animal: domestic goose; weight: 6 lb", COOKED), "waterfowl-advice", False),
        (of_meat("animal: pheasant; weight: 2 lb", COOKED), "waterfowl-advice", False),
        (of_meat("animal: pike; weight: 2 lb", COOKED), "fish-advice", True),
        (of_meat("animal: trout; weight: 2 lb; source: farmed", COOKED), "fish-advice", False),
        (of_lines("1 lb trout", course=(COOKED,)), "fish-advice", False),
    ],
)
def test_advisories_stand_where_the_animal_comes_in(
    make_book: Make, text: str, slug: str, boxed: bool
) -> None:
    found = box_of(cook(make_book, text), slug)
    assert (found is not None) is boxed
    assert found is None or found.signal == "NOTICE"


# the field: UW 2013, Utah State 2017, Penn State 2012, CDC on feral swine, Mesa County 2014, MSU on game jerky


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ("1 rabbit, in the fur", "liver or spleen is said to show many pale spots"),
        ("1 feral pig, field-dressed", "1 cup of bleach to 9 of water"),
        ("2 geese, unplucked", "leave sick and dead ones"),
        ("1 deer carcass", "keep kitchen knives out of it"),
    ],
)
def test_carcass_says_what_the_animal_asks_for(make_book: Make, line: str, reason: str) -> None:
    found = cook(make_book, of_lines(line, course=(COOKED,)), book=SICK)
    assert reason in the_box(found, "carcass").because


@pytest.mark.parametrize("line", ["1 rabbit, jointed", "2 lb venison", "1 whole goose"])
def test_no_carcass_no_box(make_book: Make, line: str) -> None:
    assert silent(cook(make_book, of_lines(line, course=(COOKED,))), "carcass")


def test_gut_soiled_meat(make_book: Make) -> None:
    def of(*course: str, line: str = "3 lb venison, gut-shot, trimmed") -> str:
        return of_lines(line, course=course)

    assert the_box(cook(make_book, of("braise: 3 h to 170 °F inside")), "gut-soiled").missing == ()
    assert "goes into 'grind'" in the_error(cook(make_book, of("grind", COOKED)), "gut-soiled").message
    assert (
        "is not cooked through"
        in the_error(cook(make_book, of("fry: 5 min to 130 °F inside")), "gut-soiled").message
    )
    assert the_box(cook(make_book, of("braise: 3 h")), "gut-soiled").missing == ("course",)
    assert silent(cook(make_book, of("grind", COOKED, line="3 lb venison")), "gut-soiled")


@pytest.mark.parametrize(
    ("stage", "words"),
    [
        ("age: 4 days at 50 °F in the cellar", "at up to 50 °F (10 °C), above 40 °F (4 °C)"),
        ("age: 9 days at 38 °F in the fridge", "for 9 days, longer than 5"),
        ("age: 1 day on the counter", "on the counter"),
    ],
)
def test_game_aged_warm_or_long_is_refused(make_book: Make, stage: str, words: str) -> None:
    """University of Wisconsin Extension 2013: at or below 40 °F for up to 5 days."""
    assert words in the_error(cook(make_book, of_meat(DEER, stage, COOKED)), "age-cold").message


def test_game_aged_cold_and_short_is_boxed_and_an_untold_one_asks(make_book: Make) -> None:
    assert (
        the_box(cook(make_book, of_meat(DEER, "age: 4 days in the fridge", COOKED)), "age-cold").missing == ()
    )
    for stage in ("age: 4 days in the cellar", "age: in the fridge"):
        assert the_box(cook(make_book, of_meat(DEER, stage, COOKED)), "age-cold").missing == ("course",)


def test_meat_to_be_ground_is_not_aged(make_book: Make) -> None:
    found = cook(make_book, of_meat(DEER, "age: 3 days in the fridge", "grind", COOKED))
    assert "and then ground" in the_error(found, "age-cold").message


def test_cured_meat_ages_by_other_rules(make_book: Make) -> None:
    text = of_meat(
        DEER, "cure: 20 days in the fridge", "age: 60 days at 55 °F", more=f"{DRY}eat: after cooking\n"
    )
    assert silent(cook(make_book, text), "age-cold")
