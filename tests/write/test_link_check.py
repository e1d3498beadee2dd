"""Every address of every page leads to a file or an id of the site; all that does not is found at once."""

from __future__ import annotations

import pytest

from generator.model.page import Asset, Page, PhotoJob, Site
from generator.write.links import BrokenLinkError, check_links, find_bad_links

HOME = "index.html"
DEEP = "recipes/shank/index.html"


def site_with(html: str, *, css: str = "") -> Site:
    """A home page with this inside, beside a deeper page, a style, a font, a script and a photo."""
    return Site(
        pages=(
            Page(path=HOME, html=html),
            Page(path=DEEP, html='<h1 id="salt">Salt</h1><a name="old"></a><p id="größe">'),
        ),
        assets=(
            Asset(path="style/book.css", content=css.encode()),
            Asset(path="style/text.woff2", content=b""),
            Asset(path="book.js", content=b""),
            Asset(path="a b.ics", content=b""),
        ),
        photos=(PhotoJob(source="photos/s.jpg", path="photos/s-800.jpg", width=800),),
    )


@pytest.mark.parametrize(
    "html",
    [
        '<a href="recipes/shank/index.html">',
        '<a href="./recipes/../recipes/shank/index.html#salt">',
        '<a href="recipes/shank/index.html?batches=2#salt">',
        '<a href="recipes/shank/index.html#old">',
        '<a href="recipes/shank/index.html#gr%C3%B6%C3%9Fe">',
        '<a href="recipes/shank/index.html#größe">',
        '<p id="here"><a href="#here">',
        '<a href="#late"></a><p id="late">',
        '<a href="">',
        '<a href="a%20b.ics">',
        '<a href="https://example.org/x">, <a href="http://example.org">, <a href="mailto:a@example.org">',
        '<img src="photos/s-800.jpg" srcset="photos/s-800.jpg 800w, photos/s-800.jpg 2x">',
        '<link rel="stylesheet" href="style/book.css"><script src="book.js"></script>',
        '<link rel="canonical" href="https://example.org/">',
        '<svg><symbol id="icon"/><use href="#icon"/><use xlink:href="#icon"/></svg>',
        '<script type="application/json">{"href": "<a href=/nowhere>"}</script>',
        '<!-- <a href="/nowhere"> --><p title="a href=/nowhere">',
        '<p data="nowhere" data-href="nowhere">',
    ],
)
def test_good_addresses(html: str) -> None:
    assert find_bad_links(site_with(html)) == ()


@pytest.mark.parametrize(
    ("html", "target", "reason"),
    [
        ('<a href="nowhere.html">', "nowhere.html", "leads to no file of the site"),
        ('<a href="Recipes/shank/index.html">', "Recipes/shank/index.html", "leads to no file of the site"),
        ('<a href="recipes/shank/">', "recipes/shank/", "leads to no file of the site"),
        ('<a href="recipes/shank">', "recipes/shank", "leads to no file of the site"),
        ('<a href="index.html/">', "index.html/", "leads to no file of the site"),
        ('<a href=".">', ".", "leads to no file of the site"),
        ('<a href="../index.html">', "../index.html", "leads to no file of the site"),
        ('<a href="recipes/shank/index.html#pepper">', "recipes/shank/index.html#pepper", "names no id"),
        ('<a href="#nowhere">', "#nowhere", "names no id"),
        ('<a href="/index.html">', "/index.html", "is not relative"),
        ('<a href="//example.org/x">', "//example.org/x", "is not relative"),
        ('<a href="recipes\\shank">', "recipes\\shank", "is not relative"),
        ('<a href="javascript:alert(1)">', "javascript:alert(1)", "scheme"),
        ('<a href="data:text/html,x">', "data:text/html,x", "scheme"),
        ('<a href="file:///x">', "file:///x", "scheme"),
        ('<a href="http://[broken">', "http://[broken", "is not an address"),
        ('<img src="https://example.org/x.jpg">', "https://example.org/x.jpg", "fetched from elsewhere"),
        ('<script src="https://example.org/x.js">', "https://example.org/x.js", "fetched from elsewhere"),
        ('<link rel=stylesheet href="https://e.org/x.css">', "https://e.org/x.css", "fetched from elsewhere"),
        ('<link href="https://e.org/x.css">', "https://e.org/x.css", "fetched from elsewhere"),
        ('<img src="">', "", "names nothing to fetch"),
        ("<img src>", "", "names nothing to fetch"),
        ('<img srcset="photos/s-800.jpg 1x, lost.jpg 2x">', "lost.jpg", "leads to no file of the site"),
        ('<video poster="lost.jpg">', "lost.jpg", "leads to no file of the site"),
        ('<object data="lost.svg">', "lost.svg", "leads to no file of the site"),
        ('<svg><use href="#lost"/></svg>', "#lost", "names nothing to fetch"),
    ],
)
def test_bad_addresses(html: str, target: str, reason: str) -> None:
    (bad,) = find_bad_links(site_with(html))
    assert (bad.path, bad.target) == (HOME, target)
    assert reason in bad.reason


def test_links_go_out_from_the_folder_of_their_page() -> None:
    pages = (
        Page(path=HOME, html=""),
        Page(path=DEEP, html='<a href="../../index.html">up</a>\n<a href="index.html">self</a>'),
        Page(path="recipes/a.html", html='\n<a href="../../index.html">too far up</a>'),
    )
    (bad,) = find_bad_links(Site(pages=pages))
    assert (bad.path, bad.line) == ("recipes/a.html", 2)


@pytest.mark.parametrize(
    ("css", "targets"),
    [
        (
            "@font-face { src: url(text.woff2) } p { fill: url(#g); background: url('../photos/s-800.jpg') }",
            [],
        ),
        ("/* url(lost.png) */", []),
        ("@font-face { src: url(lost.woff2) }", ["lost.woff2"]),
        ('@import "lost.css"; @import url("/root.css");', ["lost.css", "/root.css"]),
        ("p { background: url(data:image/png;base64,AAAA) }", ["data:image/png;base64,AAAA"]),
        ("p { background: url(https://example.org/x.png) }", ["https://example.org/x.png"]),
    ],
)
def test_styles_are_checked_too(css: str, targets: list[str]) -> None:
    assert [bad.target for bad in find_bad_links(site_with("", css=css))] == targets


def test_all_bad_links_are_raised_together_with_their_places() -> None:
    with pytest.raises(BrokenLinkError) as caught:
        check_links(site_with('<a href="one.html">\n<a href="/two.html">'))
    assert str(caught.value) == (
        "index.html:1: 'one.html' leads to no file of the site\nindex.html:2: '/two.html' is not relative"
    )
    assert len(caught.value.links) == 2
