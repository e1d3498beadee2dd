"""The whole site: every page kind, its frame, its links, its ids, the same bytes twice."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.model.page import PhotoJob, Site
from generator.model.results import ComputedBook
from generator.problems import ProblemLog
from generator.read.config import read_config
from generator.render import paths
from tests.render import sample
from tests.render.helpers import SHANK, one, parse, words

Read = Callable[[str], BeautifulSoup]
Render = Callable[[ComputedBook], Site]

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)


def trees(site: Site) -> list[tuple[str, BeautifulSoup]]:
    return [(page.path, BeautifulSoup(page.html, "html.parser")) for page in site.pages]


def test_every_kind_has_its_pages_at_their_paths(site: Site) -> None:
    assert [page.path for page in site.pages] == [
        "index.html",
        "chapters/smokehouse/index.html",
        "chapters/pots/index.html",
        "recipes/beans/index.html",
        "recipes/smoked-elk-shank/index.html",
        "smoker/smoked-elk-shank/index.html",
        "by-animal/index.html",
        "by-ingredient/index.html",
        "by-tag/index.html",
        "pages/weighing/index.html",
        "sources/index.html",
        "rules/index.html",
    ]


def test_two_renderings_are_the_same_bytes(site: Site, render: Render) -> None:
    assert render(sample.book()) == site


def test_draft_stands_nowhere(render: Render) -> None:
    draft = sample.beans(recipe=replace(sample.BEANS, draft=True, name="Secret beans", tags=("secret-tag",)))
    shank = sample.shank(used_by=())
    site = render(sample.book(shank, draft))
    assert "recipes/beans/index.html" not in {page.path for page in site.pages}
    assert not [page.path for page in site.pages if "Secret beans" in page.html or "secret-tag" in page.html]


def test_every_page_has_language_title_policy_skip_link_and_one_main(site: Site) -> None:
    for path, tree in trees(site):
        assert one(tree, "html")["lang"] == "en", path
        assert words(tree.title), path
        policy = one(tree, 'meta[http-equiv="Content-Security-Policy"]')
        assert policy["content"] == POLICY, path
        first = tree.body.find("a") if tree.body else None
        assert first is not None
        assert first["href"] == "#main", path
        assert one(tree, "main")["id"] == "main", path
        assert one(tree, "h1"), path


def test_no_inline_style_no_script_but_data_and_no_handler(site: Site) -> None:
    for path, tree in trees(site):
        assert not tree.find_all("style"), path
        for tag in tree.find_all(True):
            assert not [name for name in tag.attrs if name == "style" or name.startswith("on")], path
        inline = tree.find_all("script", src=False)
        assert {tag.get("type") for tag in inline} <= {"application/ld+json", "application/json"}, path


def test_every_link_is_relative_to_a_file_of_the_site_and_its_place(site: Site) -> None:
    ids = {path: {str(tag["id"]) for tag in tree.find_all(id=True)} for path, tree in trees(site)}
    files = set(ids) | {asset.path for asset in site.assets} | {photo.path for photo in site.photos}
    followed = 0
    for path, tree in trees(site):
        for tag in tree.find_all(["a", "link", "img"]):
            address = str(tag.get("href") or tag.get("src"))
            if address.startswith("https://example.org"):
                continue
            file, _, place = address.partition("#")
            assert not re.match(r"/|[a-z]+:", file), f"{path}: {address}"
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), file)) if file else path
            assert target in files, f"{path}: {address}"
            assert not place or place in ids[target], f"{path}: {address}"
            followed += 1
    assert followed > 150


def test_no_id_stands_twice_on_a_page(site: Site) -> None:
    for path, tree in trees(site):
        ids = [tag["id"] for tag in tree.find_all(id=True)]
        assert sorted(ids) == sorted(set(ids)), path


def test_navigation_marks_the_page_one_is_on(read: Read) -> None:
    here = one(read("by-tag/index.html"), "nav [aria-current=page]")
    assert (words(here), here["href"]) == ("By tag", "index.html")


def test_photo_of_a_body_becomes_one_job(site: Site) -> None:
    assert site.photos == (PhotoJob(source="photos/shank.jpg", path="assets/photos/shank.jpg", width=1600),)


def test_photo_of_a_rare_format_becomes_a_jpeg(render: Render) -> None:
    recipe = replace(sample.SHANK, body=sample.body("![x](../photos/a.TIFF)", "../photos/a.TIFF"))
    site = render(sample.book(sample.shank(recipe=recipe)))
    assert [photo.path for photo in site.photos] == ["assets/photos/a.TIFF.jpg"]
    image = one(parse(site, SHANK), "img")
    assert image["src"] == "../../assets/photos/a.TIFF.jpg"


def test_front_lists_chapters_in_the_order_of_the_book(read: Read) -> None:
    tree = read("index.html")
    assert [words(tag) for tag in tree.select(".contents h2")] == ["Smokehouse", "Pots", "Besides"]
    assert words(tree.select(".entries li")[0]) == "Smoked elk shankmakes 4 shanks"
    assert words(tree.select(".entries li")[1]) == "Beans & <shank>serves 12"


def test_animal_index_names_the_piece_and_the_dish_it_ends_up_in(read: Read) -> None:
    tree = read("by-animal/index.html")
    assert [words(tag) for tag in tree.find_all("h2")] == ["Deer family"]
    assert words(one(tree, "#term-elk")) == "Elk Smoked elk shank in Beans & <shank>"


def test_ingredient_index_joins_a_plural_to_its_singular(render: Render) -> None:
    first = sample.beans(lines=(sample.line("onion", "onion", sample.amount(1)),))
    second = sample.shank(lines=(sample.line("onions", "Onions", sample.amount(2)),))
    tree = parse(render(sample.book(first, second)), "by-ingredient/index.html")
    assert words(one(tree, "#term-onions")) == "onions Beans & <shank> Smoked elk shank"
    assert not tree.select("#term-onion")


def test_ingredient_index_has_what_a_cure_takes(read: Read) -> None:
    assert words(one(read("by-ingredient/index.html"), "#term-curing-salt")) == "curing salt Smoked elk shank"


def test_tag_index_lists_every_tag_once(read: Read) -> None:
    tree = read("by-tag/index.html")
    assert [words(tag) for tag in tree.find_all("dt")] == ["beans", "keeps", "smoked"]
    assert words(one(tree, "#term-keeps")) == "keeps Beans & <shank> Smoked elk shank"


def test_plain_page_has_its_prose_in_both_systems(read: Read) -> None:
    main = words(read("pages/weighing/index.html").main)
    assert "Weigh 5 lb (2.25 kg) of meat." in main


def test_sources_page_carries_limits_curing_salts_rounding_and_weights(read: Read) -> None:
    tree = read("sources/index.html")
    captions = [words(tag) for tag in tree.find_all("caption")]
    assert len(captions) == 4
    rows = [" ".join(words(cell) for cell in row.find_all(["th", "td"])) for row in tree.select("tbody tr")]
    assert any(row.startswith("Belly brine 120 ppm 9 CFR 424.22") for row in rows)
    assert any(row.startswith("Ground dry 156.25 ppm") for row in rows)
    assert any("no. 1" in row and "6.25 % 0 % 93.75 %" in row for row in rows)
    assert any(row.startswith("Curing salt, US down 0.01 g; from 1 g: 0.1 g") for row in rows)
    assert any(row.startswith("juniper berries 1 tbsp 6 g") for row in rows)


def test_sources_page_says_how_sure_each_source_is(read: Read) -> None:
    tree = read("sources/index.html")
    entry = words(one(tree, "#source-practice"))
    assert "Common practice: no publication stands behind it." in entry
    assert "Caution: Keep the cure cold" in entry
    assert "Read in the publication itself." in words(one(tree, "#source-21cfr172-175"))


def test_book_without_recipes_has_every_page_and_says_so(render: Render) -> None:
    empty = ComputedBook(book=replace(sample.book().book, recipes={}, uses=(), pages=()), recipes={})
    site = render(empty)
    assert "Nothing is written down here yet." in words(parse(site, "index.html"))
    assert "No recipe names an animal yet." in words(parse(site, "by-animal/index.html"))
    made = {page.path for page in site.pages}
    assert not [path for path in made if path.startswith(("chapters/", "recipes/", "smoker/", "pages/"))]
    assert {
        paths.FRONT,
        paths.BY_ANIMAL,
        paths.BY_INGREDIENT,
        paths.BY_TAG,
        paths.SOURCES,
        paths.RULES,
    } <= made


def test_titles_that_make_the_same_address_get_two(render: Render) -> None:
    first = sample.shank(recipe=replace(sample.SHANK, chapter="Pots!", tags=("a b", "a-b")))
    site = render(sample.book(first, sample.beans(), chapters=("Pots!", "Pots")))
    paths = [page.path for page in site.pages if page.path.startswith("chapters/")]
    assert paths == ["chapters/pots/index.html", "chapters/pots-2/index.html"]
    ids = [str(tag["id"]) for tag in parse(site, "by-tag/index.html").select("main [id]")]
    assert {"term-a-b", "term-a-b-2"} <= set(ids)


@pytest.mark.parametrize("name", ["con", "AUX", "Lpt1"])
def test_chapter_named_like_a_device_gets_an_address_that_every_system_can_hold(
    render: Render, name: str
) -> None:
    site = render(sample.book(sample.shank(recipe=replace(sample.SHANK, chapter=name))))
    assert f"chapters/{name.lower()}-/index.html" in {page.path for page in site.pages}


def test_an_own_curing_salt_stands_on_the_page_of_sources_with_its_label(render: Render) -> None:
    """The example of the README: `curing salts:` of book.yaml."""
    text = "title: A\ncuring salts:\n  Smokehouse blend: nitrite 6 %, nitrate 1 %\n"
    log = ProblemLog()
    config = read_config(text, "book.yaml", sample.TABLES, log)
    assert not log.sorted()
    page = words(parse(render(sample.book(curing_salts=config.curing_salts)), "sources/index.html"))
    assert "Smokehouse blend (6 % sodium nitrite, 1 % sodium nitrate)" in page
    assert "The label of the curing salt in this house" in page
