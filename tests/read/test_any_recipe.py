"""Whatever stands under whatever key: a recipe or problems, each with a place in the file, never an exception."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.model.book import BookConfig
from generator.problems import ProblemLog
from generator.read.config import BOOK_FILE_KEYS, read_config
from generator.read.cure_keys import CURE
from generator.read.recipe import MEAT, RECIPE, read_recipe
from generator.read.record import Reading
from generator.read.source import split_front_matter
from generator.tables import load_tables

TABLES = load_tables()

VALUES = st.sampled_from(
    (
        *(
            "elk",
            "5 lb",
            "3 %",
            "150 ppm",
            "2 cups salt",
            "brine",
            "dry",
            "1 qt hot + 1 lb ice",
            "no. 1",
            "4",
            "0",
        ),
        *(
            "4 shanks (3 lb)",
            "1–2",
            "[a, b]",
            "{a: b}",
            "''",
            "yes",
            "5 days",
            "to taste",
            "- x",
            "'#1'",
            "½",
            "🍲",
        ),
        *(
            "\n    - 2 cups flour\n    - 1 [x](x.md)",
            "\n    a: 1\n    b:\n      - 2",
            "\n    - cure: 5 days\n    - rinse",
        ),
        *("https://a.b", "en", "us", "240 g per cup", "nitrite 6 %", "lead", "1600 m", "|\n    a\n    b"),
    )
)
KEYS = st.sampled_from((*RECIPE.names, *BOOK_FILE_KEYS.names, "fridge", "junk"))
INNER = st.dictionaries(st.sampled_from((*MEAT.names, *CURE.names, "fridge", "Pot")), VALUES, max_size=4)
BODY = st.lists(
    st.sampled_from(
        ("[x](#flour)", "[x](#flour:1/2)", "2 cups flour", "[x](#meat)", "## A\n", "![x](y)", "`", "\n\n")
    ),
    max_size=8,
).map(" ".join)


def front_matter(flat: dict[str, str], nested: dict[str, dict[str, str]]) -> str:
    lines = [f"{key}: {value}" for key, value in flat.items() if key not in nested]
    for key, inner in nested.items():
        lines += [f"{key}:", *(f"  {name}: {value}" for name, value in inner.items())]
    return "\n".join(lines) + "\n"


FRONT = st.builds(
    front_matter,
    st.dictionaries(KEYS, VALUES, max_size=6),
    st.dictionaries(st.sampled_from(("meat", "cure", "keep", "ingredients", "densities")), INNER, max_size=3),
)


def check_places(log: ProblemLog, text: str) -> None:
    for problem in log:
        assert problem.position is not None
        assert 1 <= problem.position.line <= text.count("\n") + 1
        assert problem.position.column >= 1
        assert problem.message.endswith((".", "?", "'"))


@settings(max_examples=300)
@given(FRONT, BODY)
def test_any_front_matter_is_a_recipe_or_problems(front: str, body: str) -> None:
    text = f"---\nname: A\n{front}---\n{body}"
    log = ProblemLog()
    source = split_front_matter(text, "recipes/a.md", log)
    assert source is not None
    recipe = read_recipe(source, "a", Reading(config=BookConfig(title="B"), tables=TABLES), log)
    check_places(log, text)
    assert recipe is not None or log.has_errors
    unread = {one.position for one in log if one.is_error and one.slug != "missing-key" and one.position}
    last = 2 + front.count("\n")
    in_front = {place for place in unread if place.line <= last}
    assert recipe is None or in_front <= {hole.position for hole in recipe.holes}, "each is a hole"


@settings(max_examples=200)
@given(FRONT)
def test_any_book_file_gives_settings(front: str) -> None:
    log = ProblemLog()
    config = read_config(front, "book.yaml", TABLES, log)
    check_places(log, front)
    assert config.units in ("us", "metric", "imperial")
