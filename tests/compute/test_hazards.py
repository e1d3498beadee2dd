"""Ways in which a cure could hurt although its own figure looks right; each was once let through."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main


def cure(words: str) -> tuple[int, Any]:
    result = CliRunner().invoke(main, ["cure", *shlex.split(words), "--json"])
    assert result.exit_code in (0, 1), result.output
    return result.exit_code, json.loads(result.stdout)


def slugs(data: Any) -> list[str]:
    return [problem["slug"] for problem in data["problems"]]


def recipe(meat: str, cure_lines: str, course: str = "  - cure: 5 days in the fridge\n") -> str:
    return (
        "---\nname: Piece\nmakes: 2 pieces\nchapter: Pots\nmeat:\n"
        + "".join(f"  {line}\n" for line in meat.split("; "))
        + "cure:\n"
        + "".join(f"  {line}\n" for line in cure_lines.split("; "))
        + f"course:\n{course}---\n\nCure the [meat](#meat).\n"
    )


def sheet(make_book: Callable[..., Path], text: str, *words: str, book: str = "") -> tuple[int, Any]:
    files = {"recipes/piece.md": text}
    if book:
        files["book.yaml"] = book
    folder = make_book(files)
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/piece.md"), *words, "--json"])
    return result.exit_code, json.loads(result.stdout)


def test_the_needle_alone_is_held_against_the_limit() -> None:
    """FSIS Directive 7620.3 p. 19: nitrite x pump / pickle on the green weight; it is in the meat at once."""
    words = (
        "brine --meat 2kg --water 4L --salt 3% --pump 10% --pump-water 1L --pump-salt 10% --pump-curing-salt"
    )
    code, data = cure(f"{words} 400ppm")
    assert code == 1
    assert data["weigh"] is None
    assert "by the needle alone" in data["problems"][0]["message"]
    most = re.search(r"At most ([\d.]+) g", data["problems"][0]["hint"])
    assert most is not None
    assert cure(f"{words} {most[1]}g")[0] == 0


PUMPED = "brine --meat 2.4kg --water 4L --salt 3% --pump 5% --pump-water 150g"


@pytest.mark.parametrize(
    ("words", "slug", "said"),
    [
        # By hand: 200 ppm on the green weight by 5 % pumped wants 0.4 % nitrite in that brine, so 6.4 % of no. 1,
        # which is 93.75 % salt: 6 % salt, twice the 3 % asked for.
        ("--curing-salt 2g --pump-curing-salt 200ppm --pump-salt 3%", "negative-salt", "at least 6 % salt in it"),
        ("--curing-salt 2g --pump-curing-salt 900ppm --pump-salt 3%", "negative-salt", "or pump more of it"),
        # NOAA table, in constants.csv: brine at 60 °F is saturated at 26.395 %.
        ("--curing-salt 2g --pump-salt 40%", "salt-beyond-saturation", "more water in it"),
        # By hand: 5 % of 190 ppm x 2.4 kg is more nitrite than 50 ppm over 6.5 kg.
        ("--curing-salt 50ppm --pump-curing-salt 190ppm --pump-salt 10%", "no-solution", "Leave `curing salt:` out"),
        ("--curing-salt 2g --pump-curing-salt 0.001ppm --pump-salt 5%", "too-little-to-weigh", "Mix more of it"),
    ],
)  # fmt: skip
def test_a_pump_brine_that_cannot_be_mixed_gives_no_weights(words: str, slug: str, said: str) -> None:
    code, data = cure(f"{PUMPED} {words}")
    assert code == 1
    assert data["weigh"] is None
    assert data["pump_brine"]["salt_g"] is None
    found = next(problem for problem in data["problems"] if problem["slug"] == slug)
    assert said in found["hint"]


@pytest.mark.parametrize(
    "mended",
    [
        "--curing-salt 2g --pump-curing-salt 200ppm --pump-salt 6%",
        "--pump-curing-salt 190ppm --pump-salt 10%",
        "--curing-salt 2g --pump-salt 5%",
    ],
)
def test_what_the_hints_of_a_pump_brine_ask_for_is_weighed(mended: str) -> None:
    code, data = cure(f"{PUMPED} {mended}")
    assert code == 0
    assert min(value for key, value in data["pump_brine"].items() if key.endswith("_g")) >= 0


def test_a_pump_brine_with_negative_salt_is_refused_in_a_recipe(make_book: Callable[..., Path]) -> None:
    lines = "method: brine; water: 4 L; salt: 3 %; curing salt: 2 g; pump: 5 %"
    text = recipe("animal: pork; cut: loin; weight: 2.4 kg", lines).replace(
        "course:", "  pump brine:\n    water: 150 g\n    salt: 3 %\n    curing salt: 200 ppm\ncourse:"
    )
    _, data = sheet(make_book, text)
    assert slugs(data["cure"]) == ["negative-salt"]
    assert data["cure"]["weigh"] is None


@pytest.mark.parametrize("option", ["--pump", "--pick-up"])
def test_no_more_than_the_meat_is_injected_or_taken_up(option: str) -> None:
    """As under `cure:` of a recipe; a larger share is a slip of the finger."""
    words = ["brine", "--meat", "2kg", "--water", "4L", "--salt", "3%", "--curing-salt", "20g"]
    result = CliRunner().invoke(main, ["cure", *words, option, "300%"])
    assert result.exit_code == 2
    assert f"{option} '300%': '300%' is not one number in range. Write 8 %." in result.stderr


def test_nitrate_of_a_pump_brine_is_judged() -> None:
    """9 CFR 424.22(b): never in belly; 21 CFR 172.170(a)(2): 500 ppm at home."""
    pump = "--pump 10% --pump-water 1L --pump-salt 10% --pump-curing-salt"
    code, data = cure(
        f"brine --cut belly --skin off --kind 'no. 2' --meat 2kg --water 2L --salt 3% {pump} 15g"
    )
    assert code == 1
    assert "nitrate-in-belly" in slugs(data)
    code, data = cure(f"brine --kind 'sodium nitrate' --meat 2kg --water 2L --salt 3% {pump} 60g")
    assert code == 1
    assert "nitrate-above-limit" in slugs(data)


def test_tuna_takes_nitrite_but_no_nitrate() -> None:
    """21 CFR 172.175(a)(1) lists tuna at 10 ppm nitrite; 172.170(a)(1) lists sablefish, salmon and shad alone."""
    assert cure("dry --meat 2kg --salt 3% --curing-salt 10ppm --fish tuna")[0] == 0
    code, data = cure("dry --meat 2kg --salt 3% --nitrate 400ppm --fish tuna")
    assert code == 1
    assert "172.170(a)(1)" in data["problems"][0]["message"]
    assert cure("dry --meat 2kg --salt 3% --nitrate 400ppm --fish salmon")[0] == 0


def test_belly_without_a_word_about_its_skin_says_what_was_assumed() -> None:
    """9 CFR 424.22(b): skin-free green weight."""
    _, data = cure("dry --cut belly --meat 2kg --salt 3% --curing-salt 150ppm")
    assert slugs(data) == ["skin-assumed"]
    assert "--skin on" in data["problems"][0]["hint"]
    assert slugs(cure("dry --cut belly --meat 2kg --salt 3% --curing-salt 150ppm --skin off")[1]) == []
    on = cure("dry --cut belly --meat 2kg --salt 3% --curing-salt 150ppm --skin on")[1]
    assert on["weigh"]["curing_salt_g"] == pytest.approx(data["weigh"]["curing_salt_g"] * 0.9, abs=0.01)


BELLIES = ["belly", "bellies", "pork belly, skinless", "pork-belly", "bacon", "side"]
GROUNDS = ["ground venison", "mince", "burger meat", "sausage meat"]


@pytest.mark.parametrize("cut", BELLIES)
def test_belly_is_known_by_its_names(make_book: Callable[..., Path], cut: str) -> None:
    """9 CFR 424.22(b)(2): 120 ppm by immersion."""
    text = recipe(
        f"animal: pork; cut: '{cut}'; weight: 5 lb; skin: off",
        "method: brine; water: 1 gal; salt: 3 %; curing salt: 180 ppm",
    )
    code, data = sheet(make_book, text)
    assert code == 1
    assert data["cure"]["limit_ppm"] == 120


@pytest.mark.parametrize("cut", GROUNDS)
def test_ground_meat_is_known_by_its_names(make_book: Callable[..., Path], cut: str) -> None:
    """9 CFR 424.21(c): 1/4 oz per 100 lb of chopped meat, 156.25 ppm."""
    text = recipe(f"animal: deer; cut: {cut}; weight: 5 lb", "method: dry; salt: 2 %; curing salt: 190 ppm")
    code, data = sheet(make_book, text)
    assert code == 1
    assert data["cure"]["limit_ppm"] == 156.25


@pytest.mark.parametrize("stage", ["grind", "stuff"])
def test_ground_meat_is_known_by_its_stages(make_book: Callable[..., Path], stage: str) -> None:
    text = recipe(
        "animal: deer; cut: shoulder; weight: 5 lb",
        "method: dry; salt: 2 %; curing salt: 190 ppm",
        f"  - {stage}\n  - cure: 2 days in the fridge\n",
    )
    assert sheet(make_book, text)[1]["cure"]["limit_ppm"] == 156.25


class TestShortCure:
    WORDS = "brine --meat 2kg --water 2L --salt 3% --curing-salt 60ppm --pick-up 8% --thickness 76mm"

    def test_with_a_separate_pump_brine_it_is_refused(self) -> None:
        code, data = cure(
            f"{self.WORDS} --days 1 --pump 10% --pump-water 1L --pump-salt 10% --pump-curing-salt 9g"
        )
        assert code == 1
        assert "short-cure-pumped" in slugs(data)

    def test_a_warmer_cure_lets_more_in(self) -> None:
        cold = cure(f"{self.WORDS} --days 0.5 --temperature 2C")[1]["judged_ppm"]
        warm = cure(f"{self.WORDS} --days 0.5 --temperature 4C")[1]["judged_ppm"]
        assert warm > cold

    def test_a_warm_cure_is_refused(self) -> None:
        """NCHFP 2002, section 6.1.3: below 40 °F."""
        code, data = cure(f"{self.WORDS} --days 0.5 --temperature 59F")
        assert code == 1
        assert "warm-cure" in slugs(data)

    def test_several_pieces_are_judged_by_the_thinnest(self, make_book: Callable[..., Path]) -> None:
        lines = "method: brine; water: 2 L; salt: 3 %; curing salt: 60 ppm; pick-up: 8 %"
        course = "  - cure: 12 h in the fridge\n"
        book = "title: B\nunits: metric\nchapters: [Pots]\n"
        meat = "animal: pork; cut: loin; weight: 2 kg; thickness: 76 mm"
        code, data = sheet(make_book, recipe(f"{meat}; pieces: 3", lines, course), book=book)
        assert code == 1
        assert "short-cure-unknown" in slugs(data["cure"])
        assert "thinnest" in data["cure"]["problems"][0]["message"]
        one = sheet(make_book, recipe(f"{meat}; pieces: 1", lines, course), book=book)[1]
        thin = sheet(make_book, recipe(f"{meat}; pieces: 3; thinnest: 38 mm", lines, course), book=book)[1]
        assert thin["cure"]["judged_ppm"] > one["cure"]["judged_ppm"]


@pytest.mark.parametrize("units", ["us", "metric", "imperial"])
@pytest.mark.parametrize("meat", ["2.32kg", "3.333kg", "871g", "11.07kg"])
def test_meat_shown_for_a_cure_is_never_below_what_it_was_worked_out_for(
    make_book: Callable[..., Path], units: str, meat: str
) -> None:
    """Weighing the meat as any kitchen reads it may lower the figure, never raise it."""
    text = recipe("animal: pork; cut: loin; weight: 2 kg", "method: dry; salt: 3 %; curing salt: 200 ppm")
    _, data = sheet(
        make_book, text, "--meat", meat, "--units", units, book="title: B\nunits: metric\nchapters: [Pots]\n"
    )
    line = next(one for one in data["ingredients"] if one["id"] == "meat")
    shown = grams(line["shown"])
    assert shown >= Fraction(str(data["cure"]["green_weight_g"]))
    assert data["cure"]["weigh"]["curing_salt_g"] / 16 * 1e6 / float(shown) <= 200


def grams(text: str) -> Fraction:
    """An independent reading of a shown weight."""
    glyphs = {"¼": ".25", "½": ".5", "¾": ".75"}
    total = Fraction(0)
    for number, unit in re.findall(r"([\d.]*[¼½¾]?) (kg|g|lb|oz)", text):
        for glyph, decimal in glyphs.items():
            number = number.replace(glyph, decimal)
        size = {"kg": "1000", "g": "1", "lb": "453.59237", "oz": "28.349523125"}[unit]
        total += Fraction(number) * Fraction(size)
    return total


def test_water_written_in_two_systems_is_shown_whole(make_book: Callable[..., Path]) -> None:
    """1.5 L and 1 lb are 1,953.6 g: an American reader gets no less."""
    text = recipe(
        "animal: pork; cut: loin; weight: 2 kg",
        "method: brine; water: 1.5 L + 1 lb ice; salt: 3 %; curing salt: 200 ppm",
    )
    folder = make_book({"recipes/piece.md": text.replace("Cure the", "Pour the [water](#water). Cure the")})
    into = folder.parent / "sheet.html"
    CliRunner().invoke(main, ["sheet", str(folder / "recipes/piece.md"), "--into", str(into)])
    html = into.read_text(encoding="utf-8")
    assert "6¼ cups" not in html
    assert "4 lb 5 oz" in html


@pytest.mark.parametrize("words", ["--meat 2,268kg", "--meat '1,000 g'"])
def test_three_digits_behind_a_comma_are_refused_at_the_prompt(words: str) -> None:
    result = CliRunner().invoke(main, ["cure", "dry", *shlex.split(words), "--salt", "3%"])
    assert result.exit_code == 2
    assert "--meat" in result.stderr


def test_comma_as_decimal_sign_is_read_at_the_prompt() -> None:
    assert cure("dry --meat 1,5kg --salt 3%")[1]["green_weight_g"] == 1500


def test_accelerator_of_unknown_kind_takes_the_lower_limit() -> None:
    """9 CFR 424.21(c): 3/4 oz of the acid, 7/8 oz of the salt per 100 lb."""
    assert cure("dry --meat 2kg --salt 3% --accelerator 468ppm")[0] == 0
    assert cure("dry --meat 2kg --salt 3% --accelerator 470ppm")[0] == 1


def test_own_spoon_is_of_one_kind_and_always_warned_of(make_book: Callable[..., Path]) -> None:
    book = "title: B\nchapters: [Pots]\nweighings:\n  curing salt: 5 g per tsp\n"
    text = recipe("animal: pork; cut: loin; weight: 5 lb", "method: dry; salt: 3 %; curing salt: 1 tsp")
    _, data = sheet(make_book, text, book=book)
    assert data["cure"]["weigh"]["curing_salt_g"] == 5
    assert slugs(data["cure"]) == ["curing-salt-by-spoon"]
    assert "5.6 to 7.1 g by published spoons" in data["cure"]["problems"][0]["message"]
    other = text.replace("curing salt: 1 tsp", "curing salt: 1 tsp\n  kind of curing salt: sodium nitrite")
    code, data = sheet(make_book, other, book=book)
    assert code == 1
    assert slugs(data["cure"]) == ["curing-salt-not-weighed"]


def test_pump_brine_names_the_kind_of_its_curing_salt(make_book: Callable[..., Path]) -> None:
    lines = "method: brine; water: 2 L; salt: 3 %; curing salt: 50 ppm; kind of curing salt: european nitrite salt; pump: 10 %"
    text = recipe("animal: pork; cut: loin; weight: 2 kg", lines).replace(
        "course:", "  pump brine:\n    water: 1 L\n    salt: 10 %\n    curing salt: 60 g\ncourse:"
    )
    folder = make_book({"recipes/piece.md": text})
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/piece.md")])
    assert "60 g European nitrite salt (0.5 % sodium nitrite)" in " ".join(result.stdout.split())


def test_a_thickness_that_no_piece_has_is_told_not_raised(make_book: Callable[..., Path]) -> None:
    text = recipe(
        "animal: deer; cut: shank; weight: 6 lb; pieces: 3; thickness: 35 in; shape: round; bone: in",
        "method: brine; water: 1 gal; salt: 3 %; curing salt: 150 ppm",
    )
    folder = make_book({"recipes/piece.md": text})
    result = CliRunner().invoke(main, ["check", str(folder)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    sheet_ = CliRunner().invoke(main, ["sheet", str(folder / "recipes/piece.md")])
    assert "thickness must be above 0 and up to 300 mm" in " ".join(sheet_.stdout.split())


@pytest.mark.parametrize("weight", ["2.3 kg 5 lb", "2,400 kg"])
def test_a_weight_of_meat_that_reads_two_ways_is_refused(make_book: Callable[..., Path], weight: str) -> None:
    text = recipe(
        f"animal: deer; cut: shank; weight: '{weight}'", "method: dry; salt: 3 %; curing salt: 150 ppm"
    )
    folder = make_book({"recipes/piece.md": text})
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    assert [p["slug"] for p in json.loads(result.stdout) if p["severity"] == "error"] == ["unreadable-amount"]


SAUSAGE = (
    "---\nname: Raw sausage\nmakes: 2 lb\nchapter: Pots\neat: after cooking\ningredients:\n  - 2 lb ground bear\n"
    "course:\n  - grind\nkeep:\n  fridge: 1 day\n---\n\nGrind.\n"
)
TERRINE = (
    "---\nname: Terrine\nmakes: 2 lb\nchapter: Pots\neat: after cooking\ningredients:\n"
    "  - 1 lb [raw sausage](sausage.md)\n---\n\nPress.\n"
)


@pytest.mark.parametrize("component", ["raw sausage](sausage.md", "terrine](terrine.md"])
def test_wild_meat_inside_a_raw_component_is_seen_in_its_dish(
    make_book: Callable[..., Path], component: str
) -> None:
    """MMWR 2024;73(20): bear to 165 °F, wherever in the dish it hides."""
    dish = (
        "---\nname: Pan\nserves: 4\nchapter: Pots\ningredients:\n"
        f"  - 1 lb [{component})\ncourse:\n  - fry: 20 min to 165 °F inside\n---\n\nFry.\n"
    )
    folder = make_book({"recipes/sausage.md": SAUSAGE, "recipes/terrine.md": TERRINE, "recipes/pan.md": dish})
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/pan.md"), "--json"])
    data = json.loads(result.stdout)
    assert "wild-game-165" in [caution["slug"] for caution in data["cautions"]] or "high-risk-game-165" in [
        caution["slug"] for caution in data["cautions"]
    ]


@pytest.mark.parametrize(("ppm", "refused"), [("39", True), ("40", False)])
def test_nitrite_that_only_colours_does_not_allow_a_sealed_cold_smoke(
    make_book: Callable[..., Path], ppm: str, refused: bool
) -> None:
    """FSIS Directive 7620.3 p. 12: some preservative effect from 40 ppm (second-hand)."""
    text = recipe(
        "animal: pork; cut: loin; weight: 2 lb",
        f"method: dry; salt: 3 %; curing salt: {ppm} ppm",
        "  - cure: 5 days in the fridge\n  - cold smoke: 5 h at 70 °F\n  - pack: vacuum\n",
    ).replace("chapter: Pots\n", "chapter: Pots\neat: after cooking\n")
    folder = make_book({"recipes/piece.md": text})
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    assert ("cold-smoke-sealed" in [p["slug"] for p in json.loads(result.stdout)]) is refused
