"""Names in, paths of the site and relative links out: every link leads to a file, so that file:// works."""

from __future__ import annotations

import posixpath

from generator.model.slug import slugify

FRONT = "index.html"
BY_ANIMAL = "by-animal/index.html"
BY_INGREDIENT = "by-ingredient/index.html"
BY_TAG = "by-tag/index.html"
SOURCES = "sources/index.html"
RULES = "rules/index.html"

DEVICES = frozenset(
    ["con", "prn", "aux", "nul", *(f"com{n}" for n in range(1, 10)), *(f"lpt{n}" for n in range(1, 10))]
)
"Names that no folder can have on some systems."


OF_GATHERINGS = frozenset({"wall", "list"})
"Folders that every gathering has."

PHOTOS = (".jpg", ".jpeg", ".png", ".webp")
"Endings of photos that keep their format."


def recipe_path(slug: str) -> str:
    """Where a recipe's page goes."""
    return f"recipes/{slug}/index.html"


def smoker_path(slug: str) -> str:
    """Where the smoker's sheet of a cured recipe goes."""
    return f"smoker/{slug}/index.html"


def chapter_path(slug: str) -> str:
    """Where a chapter's page goes."""
    return f"chapters/{slug}/index.html"


def plain_path(slug: str) -> str:
    """Where a plain page goes."""
    return f"pages/{slug}/index.html"


def gathering_path(slug: str) -> str:
    """Where a gathering's page goes."""
    return f"gatherings/{slug}/index.html"


def wall_path(slug: str) -> str:
    """Where the wall sheet of a gathering goes."""
    return f"gatherings/{slug}/wall/index.html"


def list_path(slug: str) -> str:
    """Where the shopping and gathering list of a gathering goes."""
    return f"gatherings/{slug}/list/index.html"


def card_path(slug: str, recipe: str) -> str:
    """Where a recipe's page at the scale of a gathering goes, beside the pages that are there already."""
    return f"gatherings/{slug}/{f'{recipe}-' if recipe in OF_GATHERINGS else recipe}/index.html"


def calendar_path(slug: str) -> str:
    """Where the calendar of a gathering goes."""
    return f"gatherings/{slug}/plan.ics"


def photo_path(source: str) -> str:
    """Where a photo goes; its source is relative to the book: photos/shank.jpg. Rare formats become JPEG."""
    usual = posixpath.splitext(source)[1].lower() in PHOTOS
    return f"assets/{source}" if usual else f"assets/{source}.jpg"


def relative(page: str, target: str) -> str:
    """The link from one page to a path of the site, which may carry a #fragment."""
    path, hash_, fragment = target.partition("#")
    if path == page and hash_:
        return f"#{fragment}"
    return posixpath.relpath(path, posixpath.dirname(page) or ".") + hash_ + fragment


def book_path(file: str, href: str) -> str:
    """A relative link of a source file as a path within the book, without its fragment."""
    path = href.partition("#")[0]
    return posixpath.normpath(posixpath.join(posixpath.dirname(file), path))


def slug_of(title: str) -> str:
    """A title as one part of an address that every system can hold."""
    slug = slugify(title) or "untitled"
    return f"{slug}-" if slug in DEVICES else slug


def slugs_of(titles: tuple[str, ...]) -> dict[str, str]:
    """A slug for each title, no two the same."""
    slugs: dict[str, str] = {}
    taken: set[str] = set()
    for title in titles:
        slug, count = slug_of(title), 2
        while slug in taken:
            slug, count = f"{slug_of(title)}-{count}", count + 1
        slugs[title] = slug
        taken.add(slug)
    return slugs
