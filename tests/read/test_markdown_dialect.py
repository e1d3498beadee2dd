"""The dialect: CommonMark 0.31 with tables, raw HTML as text, four kinds of addresses; places of links and words."""

from __future__ import annotations

import copy
import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.markdown import (
    find_headings,
    find_links,
    find_runs,
    is_allowed_address,
    parse,
    render_html,
)
from generator.model.slug import slugify


def escape(words: str) -> str:
    return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def html(text: str, *, offset: int = 0) -> str:
    return render_html(
        text,
        link=lambda address, inner: None,
        text_run=escape,
        image=lambda address, words: None,
        heading_offset=offset,
    )


RENDERED = [
    # examples of the CommonMark specification 0.31.2, by number
    ("*foo bar*", "<p><em>foo bar</em></p>\n"),  # 350
    ("**foo bar**", "<p><strong>foo bar</strong></p>\n"),  # 378
    ("`foo`", "<p><code>foo</code></p>\n"),  # 328
    ("> # Foo\n> bar", '<blockquote>\n<h1 id="foo">Foo</h1>\n<p>bar</p>\n</blockquote>\n'),  # 228, with an id
    ("- foo\n- bar\n+ baz", "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n<ul>\n<li>baz</li>\n</ul>\n"),  # 301
    ("***\n---\n___", "<hr>\n<hr>\n<hr>\n"),  # 43
    ("foo  \nbaz", "<p>foo<br>\nbaz</p>\n"),  # 633
    ('[link](/uri "title")', '<p>link</p>\n'),  # 482, but addresses from the root are not ours
    ('[link](uri "title")', '<p><a href="uri" title="title">link</a></p>\n'),
    ("<http://foo.bar.baz>", '<p><a href="http://foo.bar.baz">http://foo.bar.baz</a></p>\n'),  # 594
    ('![foo](train.jpg)', '<p><img src="train.jpg" alt="foo"></p>\n'),  # 578
    # raw HTML is shown
    ("<b>x</b> & <script>alert(1)</script>",
     "<p>&lt;b&gt;x&lt;/b&gt; &amp; &lt;script&gt;alert(1)&lt;/script&gt;</p>\n"),
    ("<div onclick=x>", "<p>&lt;div onclick=x&gt;</p>\n"),
    ("```\n<b>\n```", "<pre><code>&lt;b&gt;\n</code></pre>\n"),
    # forbidden addresses leave their words
    ("[x](javascript:alert(1))", "<p>x</p>\n"),
    ("[x](JaVaScRiPt:alert(1))", "<p>x</p>\n"),
    ("[x](java&#115;cript:1)", "<p>x</p>\n"),
    ("[x](java&#10;script:1)", "<p>x</p>\n"),
    ("[x](vbscript:1)", "<p>x</p>\n"),
    ("[x](data:text/html,1)", "<p>x</p>\n"),
    ("[x](//evil.example)", "<p>x</p>\n"),
    ("[x]\n\n[x]: javascript:1", "<p>x</p>\n"),
    ("![x](https://evil.example/x.png)", "<p>x</p>\n"),
    ("![x](data:image/png;base64,1)", "<p>x</p>\n"),
    ("[a <https://b.c> d](e)", '<p><a href="e">a https://b.c d</a></p>\n'),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), RENDERED)
def test_text_becomes_html(text: str, expected: str) -> None:
    assert html(text) == expected


def test_columns_are_aligned_by_class_and_never_by_style() -> None:
    found = html("| a | b | c |\n|:--|:-:|--:|\n| 1 | 2 | 3 |\n")
    assert "style" not in found
    assert found.count('class="align-center"') == 2
    assert '<td class="align-right">3</td>' in found


def test_headings_move_down_and_get_ids_of_their_own() -> None:
    text = "# A & b\n\n## A b\n\n###### *A* b\n"
    assert html(text, offset=2) == (
        '<h3 id="a-b">A &amp; b</h3>\n<h4 id="a-b-2">A b</h4>\n<h6 id="a-b-3"><em>A</em> b</h6>\n'
    )
    assert [heading.id for heading in find_headings(text)] == ["a-b", "a-b-2", "a-b-3"]
    assert [heading.id for heading in find_headings(text, taken=["a-b"])] == ["a-b-2", "a-b-3", "a-b-4"]


def test_callbacks_write_links_images_and_words() -> None:
    seen: list[tuple[str, str]] = []

    def link(address: str, inner: str) -> str:
        seen.append((address, inner))
        return f"<u>{inner}</u>"

    found = render_html(
        "Take [the *salt*](#salt:1/2) and\n180\n°F ![a `b`](p%20q.jpg) `180 °F`",
        link=link,
        text_run=lambda words: f"({words})",
        image=lambda address, words: f"<i>{address}|{words}</i>",
        heading_offset=0,
    )
    assert seen == [("#salt:1/2", "(the )<em>(salt)</em>")]
    assert found == (
        "<p>(Take )<u>(the )<em>(salt)</em></u>( and\n180\n°F )<i>p q.jpg|a b</i>( )<code>180 °F</code></p>\n"
    )


ADDRESSES = [
    ("a.md", True, True),
    ("../recipes/a.md#salt", True, True),
    ("#salt:1/2", True, True),
    ("photos/a.jpg?x:y", True, True),
    ("https://a.b", True, False),
    ("MAILTO:a@b.c", True, False),
    ("javascript:x", False, False),
    (" javascript:x", False, False),
    ("java\tscript:x", False, False),
    ("ftp://a.b", False, False),
    ("file:///etc", False, False),
    ("//a.b", False, False),
    ("\\\\a\\b", False, False),
    ("/a", False, False),
    ("c:\\a.jpg", False, False),
]


@pytest.mark.parametrize(("address", "as_link", "as_image"), ADDRESSES)
def test_few_kinds_of_addresses_are_allowed(address: str, as_link: bool, as_image: bool) -> None:
    assert is_allowed_address(address) is as_link
    assert is_allowed_address(address, is_image=True) is as_image


PLACED = """# [One](1)

A [two](2) and
*and* [three](<3 b>), ![four](4)

> quoted [five](5)
> [six](6)

- item
  - inner [seven](7) <https://8>

| a | b |
|---|---|
| [x](9) | [x](10) |

`[no](0)` \\[no](0) [eleven][ref]

[ref]: 11
"""


def test_every_link_is_found_at_its_place() -> None:
    lines = PLACED.split("\n")
    found = find_links(PLACED)
    assert [link.address for link in found] == [
        *("1", "2", "3 b", "4", "5", "6", "7", "https://8", "9", "10", "11")
    ]
    for link in found:
        rest = lines[link.line - 1][link.column - 1 :]
        start = "!" if link.is_image else "<" if link.address.startswith("https") else f"[{link.text}]"
        assert rest.startswith(start), (link, rest)
    assert found[9].column > found[8].column, "two cells of the same words"


def test_words_outside_code_are_found_at_their_place() -> None:
    lines = PLACED.split("\n")
    runs = find_runs(PLACED)
    for run in runs:
        if run.text != "\n" and "[no]" not in run.text:  # escapes are not in the words
            assert lines[run.line - 1][run.column - 1 :].startswith(run.text), run
    assert not any("no](0)" in run.text and run.in_link for run in runs)
    assert [run.text for run in runs if run.in_link][:3] == ["One", "two", "three"]
    assert {run.text for run in runs}.isdisjoint({"[no](0)"}), "code is left out"


def test_tokens_are_shared_and_stay_as_they_are() -> None:
    text = PLACED + "\n![a](b)\n\n|a|\n|:-:|\n"
    before = copy.deepcopy(parse(text))
    html(text, offset=3)
    find_links(text)
    find_runs(text)
    assert parse(text) is parse(text)
    assert [token.as_dict() for token in parse(text)] == [token.as_dict() for token in before]


SLUGGED = [
    ("Juniper berries", "juniper-berries"),
    ("Ida's beans", "idas-beans"),
    ("Crème fraîche", "crème-fraîche"),
    ("2 % milk", "2-milk"),
    ("Straße", "strasse"),
    ("  a -- b  ", "a-b"),
    ("½", ""),
    ("हिन्दी", "हिन्दी"),
]


@pytest.mark.parametrize(("name", "slug"), SLUGGED)
def test_name_becomes_a_slug(name: str, slug: str) -> None:
    assert slugify(name) == slug


@given(st.text(max_size=30))
def test_slug_of_a_slug_is_itself(name: str) -> None:
    assert slugify(slugify(name)) == slugify(name)


class Checker(HTMLParser):
    """Collects what could run or reach out, and whether every element is closed."""

    VOID = ("br", "hr", "img")

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.open.append(tag)
        for name, value in attrs:
            address = (value or "").strip().lower()
            scheme, colon, _ = re.split(r"[/?#]", address)[0].partition(":")
            leads_out = name in ("href", "src") and colon and scheme not in ("http", "https", "mailto")
            if name == "style" or name.startswith("on") or leads_out:
                self.wrong.append(f"{tag} {name}={value}")
        if tag in ("script", "iframe", "style", "object", "form", "input"):
            self.wrong.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"/{tag}")


MARKUP = st.sampled_from(
    (
        *("\n\n", "  \n", "javascript:", "https://a.b", "x.md", "<script>", "</p>", "onclick=", "1. ", "> "),
        *("|:-:|", "&#1;", *"[]()!*_`<>|-# a\\&:\"'\t\n"),
    )
)


@given(st.one_of(st.text(max_size=80), st.lists(MARKUP, max_size=40).map("".join)))
def test_any_text_becomes_harmless_closed_html(text: str) -> None:
    checker = Checker()
    checker.feed(html(text, offset=1))
    assert checker.wrong == []
    assert checker.open == []
    for link in find_links(text):
        assert 1 <= link.line <= text.count("\n") + 1 + text.count("\r")
        assert link.column >= 1
    for run in find_runs(text):
        assert run.line >= 1
        assert run.column >= 1
