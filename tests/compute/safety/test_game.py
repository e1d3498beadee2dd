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
ACCEPT = "accept:\n  wild-game-165: we cook deer to 160 by thermometer\n"
DRY = "cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"


# 165 °F: MMWR 2024;73(20); Health Canada 2012


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


# deer disease: CDC, About CWD; Texas Parks and Wildlife


COOKED = "simmer: 3 h to 165 °F inside"


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
