"""What lies in a book's folder besides its files: pipes, locked folders, folders and files of the wrong kind or name."""

from __future__ import annotations

import errno
import inspect
import os
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.build import find_book, find_gathering
from generator.cli import main
from generator.problems import BookError, Problem, ProblemLog
from generator.read import read_book
from generator.tables import Tables

MakeBook = Callable[..., Path]
DISH = "---\nname: Dish\nserves: 4\nchapter: Pots\n---\n\nCook it.\n"
NOBODY = 65534
"A user that owns nothing: what the owner may not open is closed to it too."


def problems_of(folder: Path, tables: Tables) -> tuple[Problem, ...]:
    log = ProblemLog()
    read_book(folder, tables, log)
    return log.sorted()


def told(problems: tuple[Problem, ...]) -> list[tuple[str, str]]:
    return [(problem.slug, problem.position.file if problem.position else "") for problem in problems]


def run(*words: str) -> Result:
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


@contextmanager
def seconds(limit: int) -> Iterator[None]:
    """Whoever waits for a pipe is stopped."""

    def stop(*_: object) -> None:
        raise AssertionError("it waits for what never comes")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(limit)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


PIPES = [
    ("recipes/pipe.md", "unreadable-file", "is a pipe or a device, not a file", "Delete it"),
    ("book.yaml", "unreadable-file", "is a pipe or a device, not a file", "Delete it"),
    ("pages/pipe.md", "unreadable-file", "is a pipe or a device, not a file", "Delete it"),
    ("gatherings/pipe", "not-read", "is a pipe or a device, and is not read", "Move it out of gatherings/"),
    ("photos/pipe.jpg", "not-read", "is a pipe or a device, and is not read", "Delete it"),
    ("recipes", "unreadable-file", "is a pipe or a device, not a folder", "make a folder of that name"),
]


@pytest.mark.parametrize(("file", "slug", "words", "hint"), PIPES)
def test_pipe_is_told_and_not_waited_for(
    make_book: MakeBook, file: str, slug: str, words: str, hint: str
) -> None:
    folder = make_book({})
    path = folder / file
    path.parent.mkdir(exist_ok=True)
    path.unlink(missing_ok=True)
    os.mkfifo(path)
    with seconds(10):
        result = run("check", str(folder))
    assert f"{file}:1:1: " in result.stderr
    assert f"[{slug}]" in result.stderr
    assert words in result.stderr
    assert hint in result.stderr


WRONG_KINDS: list[tuple[str, dict[str, str], tuple[str, ...], str, str, str]] = [
    ("recipes that is a file", {"recipes": "x"}, (), "unreadable-file", "recipes", "is a file, not a folder"),
    ("photos that is a file", {"photos": "x"}, (), "unreadable-file", "photos", "is a file, not a folder"),
    ("folder named as a recipe", {}, ("recipes/x.md",), "not-read", "recipes/x.md", "is a folder, and nothing"),
    ("folder named as the book", {}, ("book.yaml",), "unreadable-file", "book.yaml", "is a folder, not a file"),
    ("scans", {"recipes/scans/1.pdf": "x"}, (), "not-read", "recipes/scans", "nothing in it is read"),
    ("another ending", {"recipes/a.markdown": DISH}, (), "not-read", "recipes/a.markdown", "end in .md"),
    ("plain text", {"recipes/a.txt": DISH}, (), "not-read", "recipes/a.txt", "end in .md"),
    ("no ending", {"gatherings/supper": "x"}, (), "not-read", "gatherings/supper", "end in .md"),
    ("photo beside a page", {"pages/a.jpg": "x"}, (), "not-read", "pages/a.jpg", "end in .md"),
    ("capital letter", {"Recipes/a.md": DISH}, (), "not-read", "Recipes", "the book's own is called recipes"),
    ("slip in a name", {"gathering/a.md": DISH}, (), "not-read", "gathering", "called gatherings"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("files", "folders", "slug", "file", "words"),
    [w[1:] for w in WRONG_KINDS],
    ids=[w[0] for w in WRONG_KINDS],
)
def test_what_is_not_read_is_told_where_it_lies(
    make_book: MakeBook,
    tables: Tables,
    files: dict[str, str],
    folders: tuple[str, ...],
    slug: str,
    file: str,
    words: str,
) -> None:
    book = make_book(files)
    for name in folders:
        (book / name).unlink(missing_ok=True)
        (book / name).mkdir(parents=True)
    if file == "Recipes" and (book / "recipes").exists():
        pytest.fail("this system does not tell large letters from small ones")
    problems = problems_of(book, tables)
    assert told(problems) == [(slug, file)]
    assert words in problems[0].message
    assert problems[0].hint


HINTS = [
    ("recipes/a.markdown", "Rename it to recipes/a.md", "recipes/a.md"),
    ("recipes/a.txt", "Rename it to recipes/a.md", "recipes/a.md"),
    ("recipes/a.txt", "begin its name with a dot", "recipes/.a.txt"),
    ("recipes/a.txt", "move it out of recipes/", "a.txt"),
    ("recipes/a.jpg", "Move it to photos/", "photos/a.jpg"),
    ("recipes/inner/a.md", "Move it to recipes/a.md", "recipes/a.md"),
    ("Recipes/a.md", "Rename it to recipes", "recipes/a.md"),
]


@pytest.mark.parametrize(("file", "hint", "better"), HINTS)
def test_hint_followed_to_the_letter_ends_the_problem(
    make_book: MakeBook, tables: Tables, file: str, hint: str, better: str
) -> None:
    book = make_book({file: DISH})
    (problem,) = problems_of(book, tables)
    assert hint in problem.hint
    (book / better).parent.mkdir(exist_ok=True)
    (book / file).rename(book / better)
    if not any((book / file).parent.iterdir()):
        (book / file).parent.rmdir()
    assert problems_of(book, tables) == ()


QUIET = [
    {"recipes/.notes.txt": "x"},
    {"recipes/.scans/1.pdf": "x", "recipes/.git/a.md": "x"},
    {"recipes/a.md.bak": "x", "recipes/a.md~": "x", "pages/Thumbs.db": "x", "gatherings/a.md.orig": "x"},
    {"notes.txt": "x", "README.md": "x", "scans/1.pdf": "x", "makings/a.md": "x", "larder.md": "x"},
    {"photos/notes.txt": "x", "photos/inner/a.png": "x", "photos/.hidden.jpg": "x"},
    {"recipes/a.md": DISH, "recipe/b.md": DISH},
]
"The last: a folder of its own beside recipes/ may be called what its author likes."


@pytest.mark.parametrize("files", QUIET)
def test_what_is_in_order_is_not_told(make_book: MakeBook, tables: Tables, files: dict[str, str]) -> None:
    assert problems_of(make_book(files), tables) == ()


def test_links_among_photos_are_told_and_not_followed(
    make_book: MakeBook, tables: Tables, tmp_path: Path
) -> None:
    book = make_book({"photos/a.jpg": "x"})
    (tmp_path / "secret.jpg").write_text("x", encoding="utf-8")
    (book / "photos/leak.jpg").symlink_to(tmp_path / "secret.jpg")
    (book / "photos/inner").symlink_to(tmp_path, target_is_directory=True)
    log = ProblemLog()
    manuscript = read_book(book, tables, log)
    assert manuscript is not None
    assert manuscript.photos == ("photos/a.jpg",)
    assert told(log.sorted()) == [("not-read", "photos/inner"), ("not-read", "photos/leak.jpg")]


def test_folders_are_walked_however_deep_they_lie(make_book: MakeBook, tables: Tables) -> None:
    deep = "photos/" + "a/" * 200
    book = make_book({"photos/a.jpg": "x", f"{deep}b.jpg": "x"})
    log, before = ProblemLog(), sys.getrecursionlimit()
    sys.setrecursionlimit(len(inspect.stack(0)) + 150)  # fewer calls inside each other than folders
    try:
        manuscript = read_book(book, tables, log)
    finally:
        sys.setrecursionlimit(before)
    assert log.sorted() == ()
    assert manuscript is not None
    assert manuscript.photos == ("photos/a.jpg", f"{deep}b.jpg")


LOCKED = ["recipes", "gatherings", "pages", "photos", "photos/inner", "recipes/inner"]
FULL = {f"{name}/a.txt": "x" for name in LOCKED} | {"recipes/dish.md": DISH, "photos/a.jpg": "x"}


@pytest.mark.parametrize("locked", LOCKED)
def test_folder_that_the_system_refuses_is_told(
    make_book: MakeBook, tables: Tables, monkeypatch: pytest.MonkeyPatch, locked: str
) -> None:
    book, list_it = make_book(FULL), Path.iterdir

    def refuse(self: Path) -> Iterator[Path]:
        if self == book / locked:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self))
        return list_it(self)

    monkeypatch.setattr(Path, "iterdir", refuse)
    problems = [p for p in problems_of(book, tables) if p.slug == "unreadable-file"]
    assert told(tuple(problems)) == [("unreadable-file", locked)]
    assert problems[0].message == f"{locked} cannot be opened: Permission denied."
    assert "rights" in problems[0].hint


@contextmanager
def as_nobody() -> Iterator[None]:
    """Rights hold for everyone but the administrator: a test that runs as one lays its rights down."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def open_book() -> Iterator[Path]:
    """A folder with a book in content/ that everyone may read, the way to it too."""
    above = Path(tempfile.mkdtemp())
    above.chmod(0o755)
    for name, text in {"book.yaml": "title: A\nchapters: [Pots]\n", **FULL}.items():
        path = above / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    yield above
    for path in (above / "content", *(above / "content" / name for name in LOCKED)):
        path.chmod(0o755)
    shutil.rmtree(above)


@pytest.mark.parametrize("locked", LOCKED)
@pytest.mark.parametrize("rights", [0o000, 0o644], ids=["closed", "names only"])
def test_locked_folder_is_told_by_check(open_book: Path, locked: str, rights: int) -> None:
    run("check", str(open_book))  # loads what is loaded late
    (open_book / "content" / locked).chmod(rights)
    with as_nobody():
        result = run("check", str(open_book))
    assert result.exit_code == 1
    files = [line.split(":")[0] for line in result.stderr.splitlines() if "[unreadable-file]" in line]
    assert files
    assert all(file.startswith(locked) for file in files)
    assert "Permission denied" in result.stderr


def test_locked_book_is_told_by_every_command(open_book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("check", str(open_book))
    import_module("generator.preview")
    (open_book / "content").chmod(0o000)
    monkeypatch.chdir(open_book)
    for words in (
        ["check", str(open_book)],
        ["check", str(open_book / "content")],
        ["site", str(open_book)],
        ["preview", str(open_book)],
        ["sheet", "dish"],
        ["sheet", str(open_book / "content/recipes/dish.md")],
    ):
        with as_nobody():
            result = run(*words)
        assert result.exit_code == 1, words
        assert "cannot be opened: Permission denied. [unreadable-file]" in result.stderr, words


def test_a_recipe_in_a_locked_folder_is_not_called_missing(
    open_book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(open_book)
    run("sheet", "dish")
    (open_book / "content/recipes").chmod(0o000)
    with as_nobody():
        result = run("sheet", "dish")
    assert "recipes cannot be opened: Permission denied" in result.stderr
    assert "is no recipe" not in result.stderr


def test_path_that_no_system_can_open_is_told(tmp_path: Path) -> None:
    with pytest.raises(BookError) as caught:
        find_book(tmp_path / ("a" * 300))
    (problem,) = caught.value.problems
    assert problem.slug == "unreadable-file"
    assert "File name too long" in problem.message


def test_names_are_looked_up_and_never_matched(make_book: MakeBook) -> None:
    supper = "---\nname: S\ndate: 2026-12-05 17:30\nguests: 4\ndishes:\n  - all guests [Dish](../recipes/dish.md)\n---\n"
    book = make_book({"recipes/dish.md": DISH, "gatherings/Supper.md": supper})
    assert find_gathering("supper", book) == (book, "supper")
    assert find_gathering(str(book / "gatherings/Supper.md"), book) == (book, "supper")
    for name in ("*", "dish", "nothing"):
        assert find_gathering(name, book) is None
    for name in ("/supper", "../gatherings/supper"):
        with pytest.raises(BookError):
            find_gathering(name, book)
