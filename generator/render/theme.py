"""The name of a theme in, its folder read out: where its templates are, what its plates and files are.

A theme has no Python and no arithmetic: `theme.toml`, `templates/`, `plates/` (drawings set into pages) and
`assets/` (files put beside them). What it lacks is taken from `themes/base`; a style sheet that both have is set
behind base's, and an icon is drawn in the colours that the sheet names. Only this module knows the template engine.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from graphlib import TopologicalSorter
from importlib.resources import files
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, TemplateError, TemplateSyntaxError

from generator.model.page import Asset
from generator.model.shown import show_decimal
from generator.problems import BookError, Position, Problem, nearest

BASE = "base"
KEYS = frozenset({"title", "author"})
SCREEN = "assets/screen.css"
STYLES = frozenset({SCREEN, "assets/print.css"})
"A theme's own look, linked from every page: behind the screen.css of base, and over its paper.css."
ICON = "assets/icon.svg"


class ThemeError(ValueError):
    """A theme's folder is not whole. Not the book's author but the theme's made this mistake."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """One look of the book."""

    name: str
    title: str
    author: str
    folders: tuple[Path, ...]
    "Searched in order for templates and plates: the theme, then base."
    plates: frozenset[str]
    "Names of the drawings that can be set into a page."
    assets: tuple[Asset, ...]
    "Styles and icons, by path of the site."

    def style(self, name: str) -> str:
        """The text of one style sheet. A name that no theme has is a bug and raises StopIteration."""
        return next(asset.content.decode() for asset in self.assets if asset.path == f"assets/{name}")


def themes_root() -> Path:
    """The folder of themes: inside the package once installed, beside it in a checkout."""
    installed = Path(str(files("generator") / "themes"))
    return installed if installed.is_dir() else Path(__file__).resolve().parents[2] / "themes"


def load_theme(name: str, *, position: Position | None = None, root: Path | None = None) -> Theme:
    """Read a theme. Raises BookError for a name that is not known, with the nearest known one as its hint."""
    root = root or themes_root()
    known = sorted(folder.name for folder in root.iterdir() if (folder / "theme.toml").is_file())
    if name not in known:
        hint = nearest(name, known) or f"Known themes: {', '.join(known)}."
        message = f"There is no theme '{name}'."
        problem = Problem(slug="unknown-theme", message=message, hint=hint, position=position)
        raise BookError((problem,))
    folders = (root / name, root / BASE)
    about = _read_about(root / name / "theme.toml")
    if missing := sorted(style for style in STYLES if not (root / name / style).is_file()):
        raise ThemeError(f"{root / name}: a theme needs {' and '.join(missing)}")
    return Theme(
        name=name,
        title=about["title"],
        author=about.get("author", ""),
        folders=folders,
        plates=frozenset(path.stem for folder in folders for path in folder.glob("plates/*.svg")),
        assets=_read_assets(folders),
    )


def _read_about(path: Path) -> dict[str, str]:
    try:
        about = tomllib.loads(path.read_text(encoding="utf-8"))
    except ValueError as error:
        raise ThemeError(f"{path}: {error}") from error
    if unknown := sorted(about.keys() - KEYS):
        raise ThemeError(f"{path}: unknown keys {unknown}; known are {sorted(KEYS)}")
    if "title" not in about:
        raise ThemeError(f"{path}: a theme needs a title")
    return about


def _read_assets(folders: tuple[Path, ...]) -> tuple[Asset, ...]:
    """Every file below assets/ and every script that is kept in parts, in the order of their paths."""
    found: dict[str, bytes] = {}
    for folder in reversed(folders):  # base first: a theme's sheet comes behind and wins
        for path in sorted((folder / "assets").rglob("*")):
            if path.is_file() and not path.name.startswith("."):
                name = path.relative_to(folder).as_posix()
                before = found.get(name, b"") if path.suffix == ".css" else b""
                found[name] = before + path.read_bytes()
    for parts in sorted((folders[-1] / "scripts").glob("*/")):
        found[f"assets/{parts.name}.js"] = _joined(parts).encode()
    if ICON in found:
        found[ICON] = _coloured(found[ICON].decode(), found[SCREEN].decode()).encode()
    return tuple(Asset(path=name, content=found[name]) for name in sorted(found))


def _coloured(drawing: str, sheet: str) -> str:
    """A drawing with each colour that it names as the sheet sets it first, in the light: an icon sees no sheet."""
    first = dict(reversed(re.findall(r"(--[a-z]+): (#[0-9a-f]+);", sheet)))
    if missing := sorted(set(re.findall(r"var\((--[a-z]+)\)", drawing)) - first.keys()):
        raise ThemeError(f"{ICON}: {SCREEN} sets no colour {missing[0]}")
    for name, colour in first.items():
        drawing = drawing.replace(f"var({name})", colour)
    return drawing


def _joined(folder: Path) -> str:
    """The parts of a script as one, each behind those it imports: modules do not load from a folder of files."""
    parts = {path.name: path.read_text(encoding="utf-8").splitlines() for path in sorted(folder.glob("*.js"))}
    order = TopologicalSorter({name: _imports(lines) for name, lines in parts.items()}).static_order()
    body = "\n".join(line for name in order for line in _plain(parts[name]))
    return f'(function () {{\n"use strict";\n{body}\n}}());\n'


def _imports(lines: list[str]) -> list[str]:
    """Names of the parts that a part imports from. An import has a line to itself: import { plus } from "./fraction.js";"""
    return [line.split('"./')[1].removesuffix('";') for line in lines if line.startswith("import ")]


def _plain(lines: list[str]) -> list[str]:
    """A part as it stands among the others, where every name is known without import and export."""
    return [line.removeprefix("export ") for line in lines if not line.startswith("import ")]


FILTERS = {
    "decimal": lambda value: show_decimal(value, places=2),
    "per_cent": lambda share: f"{show_decimal(share * 100, places=2)} %",
}
"By which a template shows the numbers of a record."


def make_environment(theme: Theme) -> Environment:
    """Everything is escaped, an undefined name is an error, the theme's folder comes before base's."""
    environment = Environment(
        loader=FileSystemLoader([str(folder) for folder in theme.folders]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters |= FILTERS
    return environment


def fill_template(environment: Environment, template: str, **views: object) -> str:
    """One page: the template's name is its page kind's, its file `templates/<name>.html`. Raises ThemeError."""
    file = f"templates/{template}.html"
    try:
        return environment.get_template(file).render(**views)
    except TemplateError as error:
        at = f"{error.name}:{error.lineno}" if isinstance(error, TemplateSyntaxError) else file
        raise ThemeError(f"{at}: {error.message}") from error
