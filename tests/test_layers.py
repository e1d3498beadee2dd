"""The arrows of the architecture: who may import whom, and where each library lives."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

GENERATOR = Path(__file__).parent.parent / "generator"

STAGES = ("read", "resolve", "compute", "render", "write")

LEVELS = {
    "problems": 0,
    "model": 0,
    "tables": 1,
    "markdown": 1,
    "english": 2,
    **dict.fromkeys(STAGES, 3),
    "build": 4,
    "preview": 5,
    "cli": 6,
}
"A module imports from lower levels and from its own folder; stages never import each other."

HOMES = {
    "yaml": ("read/",),
    "pydantic": ("read/",),
    "markdown_it": ("markdown.py",),
    "jinja2": ("render/",),
    "markupsafe": ("render/",),
    "pint": ("tables/",),
    "watchdog": ("preview/",),
    "PIL": ("write/",),
    "weasyprint": ("write/",),
    "icalendar": ("write/",),
    "click": ("cli/",),
    "rich": ("cli/",),
}
"Each library has one home."

IMPURE = frozenset({"os", "pathlib", "io", "time", "datetime", "random", "subprocess", "tempfile", "shutil"})
"What compute/ may not import: files, the clock, the environment."


def modules() -> list[Path]:
    return sorted(GENERATOR.rglob("*.py"))


def imports(path: Path) -> set[str]:
    """Dotted names imported anywhere in a module, inside functions too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative imports hide the arrows"
            assert node.module is not None
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def part(path: Path) -> str:
    """The member of the architecture that a file belongs to."""
    relative = path.relative_to(GENERATOR)
    return relative.parts[0].removesuffix(".py")


def broken_arrows(path: Path) -> list[str]:
    """Each import of ours that points up or sideways, as a sentence."""
    own = part(path)
    if own == "__init__":
        return []
    name = path.relative_to(GENERATOR).as_posix()
    broken = []
    for imported in sorted(imports(path)):
        words = imported.split(".")
        if words[0] != "generator" or len(words) < 2 or words[1] not in LEVELS:
            continue
        other = words[1]
        if other == own:
            continue
        if own in STAGES and other in STAGES:
            broken.append(f"{name} imports {imported}: stages do not import each other")
        elif LEVELS[other] > LEVELS[own] or (LEVELS[other] == LEVELS[own] and own != "model"):
            broken.append(f"{name} imports {imported}: arrows go down only")
    return broken


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(GENERATOR).as_posix())
def test_arrows_go_one_way(path: Path) -> None:
    assert broken_arrows(path) == []


@pytest.mark.parametrize("path", modules(), ids=lambda path: path.relative_to(GENERATOR).as_posix())
def test_each_library_has_one_home(path: Path) -> None:
    name = path.relative_to(GENERATOR).as_posix()
    for imported in imports(path):
        homes = HOMES.get(imported.split(".")[0])
        if homes is not None:
            assert name.startswith(homes), f"{name} imports {imported}, whose home is {homes}"


def test_compute_is_pure() -> None:
    for path in modules():
        if part(path) == "compute":
            roots = {imported.split(".")[0] for imported in imports(path)}
            assert not roots & IMPURE, f"{path.name} imports {roots & IMPURE}"


def needed_by(name: str) -> set[str]:
    """Every module that a module of ours imports, and those that these import."""
    found, left = set(), {name}
    while left:
        path = GENERATOR.joinpath(*left.pop().split(".")[1:]).with_suffix(".py")
        if path.is_file():
            new = {imported.rpartition(".")[0] for imported in imports(path)} | imports(path)
            left |= {one for one in new - found if one.startswith("generator.")}
            found |= new
    return found


def test_a_cure_is_read_without_yaml_and_pydantic() -> None:
    """What is typed at a prompt is no file: reading it takes neither the one nor the other."""
    for name in ("generator.read.cure", "generator.read.cure_keys"):
        roots = {imported.split(".")[0] for imported in needed_by(name)}
        assert "generator" in roots
        assert not roots & {"yaml", "pydantic"}, name
    assert "yaml" in {imported.split(".")[0] for imported in needed_by("generator.read.recipe")}


def test_every_member_has_a_level() -> None:
    members = {part(path) for path in modules()} - {"__init__", "__main__"}
    assert members <= set(LEVELS), f"without a level: {members - set(LEVELS)}"


def test_a_broken_arrow_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    wrong = tmp_path / "compute" / "plan.py"
    wrong.parent.mkdir()
    wrong.write_text("def f() -> None:\n    from generator.render import formatting\n")
    monkeypatch.setattr(f"{__name__}.GENERATOR", tmp_path)
    assert broken_arrows(wrong) == [
        "compute/plan.py imports generator.render.formatting: stages do not import each other"
    ]


def test_a_theme_holds_no_python() -> None:
    assert list((GENERATOR.parent / "themes").rglob("*.py")) == []
