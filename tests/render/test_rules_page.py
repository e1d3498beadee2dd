"""The page of rules: every rule and every difference, with its sources and how sure they are; nothing of our own rows."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from bs4 import BeautifulSoup

from generator.model.page import Site
from generator.model.results import ComputedBook
from generator.render.context import CERTAINTY
from generator.render.views.sources import SIGNALS
from tests.render import sample
from tests.render.helpers import SHANK, one, parse, words

Read = Callable[[str], BeautifulSoup]
RULES = "rules/index.html"


@pytest.mark.parametrize("slug", sample.TABLES.cautions)
def test_every_rule_stands_there_with_its_words_and_how_sure_its_sources_are(read: Read, slug: str) -> None:
    rule = sample.TABLES.cautions[slug]
    line = one(read(RULES), f"#rule-{slug}")
    said = words(line)
    assert said.startswith(f"{rule.signal} {rule.title} {rule.text}".replace("  ", " "))
    assert rule.locator in said
    cited = [(words(item.a), words(item.select_one(".note"))) for item in line.select(".rests-on li")]
    sources = [sample.TABLES.sources[key] for key in rule.sources]
    assert cited == [(source.citation, CERTAINTY[source.certainty]) for source in sources]


def test_gravest_rules_come_first(read: Read) -> None:
    signals = [SIGNALS.index(words(signal)) for signal in read(RULES).select(".rules .signal")]
    assert len(signals) == len(sample.TABLES.cautions)
    assert signals == sorted(signals)


def test_every_difference_says_both_sides_what_is_taken_and_why(read: Read) -> None:
    """The 25 matters of the project's list of conflicting sources."""
    items = read(RULES).select(".differences > li")
    assert len(items) == len(sample.TABLES.differences) == 25
    for item, row in zip(items, sample.TABLES.differences, strict=True):
        said = words(item)
        for text in (row.topic, row.says, row.takes, row.why):
            assert " ".join(text.split()) in said
        assert item.select("a[href]"), row.topic


def test_local_codes_and_the_extension_office_come_first(read: Read) -> None:
    said = words(read(RULES).main)
    assert "Local codes, your extension office and your doctor come before this book." in said
    assert said.index("Local codes") < said.index("DANGER and WARNING") < said.index("Where sources differ")


@pytest.mark.parametrize(
    ("language", "says"),
    [
        ("en-GB", "Read are the front matter of recipes, and the sentences of recipes and gatherings."),
        ("de", "No sentence is read"),
    ],
)
def test_what_is_read_is_told(render: Callable[[ComputedBook], Site], language: str, says: str) -> None:
    site = render(sample.book(language=language))
    assert says in words(parse(site, RULES).main)


def test_poison_line_of_the_book_stands_at_the_head(render: Callable[[ComputedBook], Site]) -> None:
    site = render(sample.book(poison_help="Call 000"))
    assert words(one(parse(site, RULES), ".head .help")) == "Call 000"


def test_without_a_line_it_says_whom_to_call(read: Read) -> None:
    assert "your country's poison information centre" in words(one(read(RULES), ".head .help"))


def test_pages_lead_to_it_from_their_foot_and_from_the_sources(read: Read) -> None:
    assert one(read("index.html"), ".foot .way a")["href"] == "rules/index.html"
    assert one(read(SHANK), ".foot .way a")["href"] == "../../rules/index.html"
    assert one(read(RULES), ".foot .way a")["aria-current"] == "page"
    assert one(read("sources/index.html"), "main a[href='../rules/index.html']")


def test_box_leads_to_its_rule(read: Read) -> None:
    links = [str(a["href"]) for a in read(SHANK).select(".box .about a")]
    assert sorted(links) == sorted(f"../../rules/index.html#rule-{one.slug}" for one in sample.CAUTIONS)


def test_box_says_what_to_write_where(read: Read) -> None:
    box = next(tag for tag in read(SHANK).select(".box") if "Cut the thickest" in tag.get_text())
    assert words(one(box, ".missing")) == "Cannot be told: write meat.thickness, shot in book.yaml."
    assert [words(code) for code in box.select(".missing code")] == ["meat.thickness", "shot"]


def test_box_says_what_its_author_accepts(read: Read) -> None:
    box = next(tag for tag in read(SHANK).select(".box") if "Check the rules" in tag.get_text())
    assert words(one(box, ".accepted")) == "Accepted by the author: We asked the warden."


def test_no_identifier_of_a_reference_list_is_shown_to_readers(read: Read) -> None:
    assert "safety_rows" not in str(read(RULES))
    assert not [id for id in ("COOK-01", "GAME-01", "CWD-01", "CAN-20") if id in str(read(RULES))]
