"""Which folders and files are ours to write, and which are never touched (design, section 7)."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from generator.model.page import Site
from generator.problems import ProblemLog
from generator.write.manifest import MANIFEST_NAME
from generator.write.output import WriteReport

Make = Callable[..., Site]
Write = Callable[..., tuple[WriteReport, ProblemLog]]
Contents = Callable[[Path], Mapping[str, str]]


def slugs(log: ProblemLog) -> list[str]:
    return [problem.slug for problem in log]


def assert_refused(
    result: tuple[WriteReport, ProblemLog], slug: str, *words: str, folder: Path, before: Mapping[str, str]
) -> None:
    """Refused with one problem that says these words and has a hint, and the folder is as it was."""
    report, log = result
    assert not report.done
    assert slugs(log) == [slug]
    problem = next(iter(log))
    for word in words:
        assert word in problem.message
    assert problem.hint
    after = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert after == set(before)
    assert not list(folder.parent.glob(".*.potherb-*"))


def test_a_missing_folder_is_made(make_site: Make, write: Write, into: Path) -> None:
    report, log = write(make_site(), into / "deep" / "er")
    assert report.done
    assert not log
    assert (into / "deep" / "er" / "index.html").read_text() == "<p>index.html 1</p>"
    assert report.added == ("index.html", "recipes/shank/index.html")
    assert report.pages == 2


def test_an_empty_folder_is_ours(make_site: Make, write: Write, into: Path) -> None:
    into.mkdir()
    report, _ = write(make_site())
    assert report.done
    assert (into / "recipes/shank/index.html").is_file()


def test_a_folder_of_dotfiles_is_ours_and_they_stay(make_site: Make, write: Write, into: Path) -> None:
    (into / ".git" / "objects").mkdir(parents=True)
    (into / ".git" / "HEAD").write_text("ref: refs/heads/main\n")
    (into / ".git" / "hook").symlink_to("HEAD")
    (into / ".gitignore").write_text("*\n!.gitignore\n")
    (into / ".nojekyll").touch()
    for version in ("1", "2"):
        report, log = write(make_site(version))
        assert report.done, list(log)
        assert (into / ".gitignore").read_text() == "*\n!.gitignore\n"
        assert (into / ".git" / "HEAD").read_text() == "ref: refs/heads/main\n"
        assert os.readlink(into / ".git" / "hook") == "HEAD"
        assert (into / ".git" / "objects").is_dir()
        assert (into / ".nojekyll").is_file()
        assert report.kept == ()


def test_a_folder_with_other_things_is_refused(
    make_site: Make, write: Write, into: Path, contents: Contents
) -> None:
    into.mkdir()
    for name in ("a.txt", "b.txt", "c.txt", "d.txt", "e.txt"):
        (into / name).write_text("mine")
    before = contents(into)
    result = write(make_site())
    assert_refused(result, "foreign-folder", "'a.txt'", "and 2 more", folder=into, before=before)
    assert contents(into) == before


def test_a_folder_with_an_empty_folder_is_refused(make_site: Make, write: Write, into: Path) -> None:
    (into / "letters").mkdir(parents=True)
    assert_refused(write(make_site()), "foreign-folder", "'letters'", folder=into, before={})
    assert (into / "letters").is_dir()


def test_a_file_in_the_place_of_the_folder_is_refused(make_site: Make, write: Write, into: Path) -> None:
    into.write_text("mine")
    report, log = write(make_site())
    assert not report.done
    assert slugs(log) == ["foreign-folder"]
    assert into.read_text() == "mine"


def test_foreign_files_stay_beside_a_site_of_ours(make_site: Make, write: Write, into: Path) -> None:
    write(make_site("1"))
    (into / "CNAME").write_text("book.example\n")
    (into / "recipes" / "note.txt").write_text("mine")
    (into / "empty").mkdir()
    report, log = write(make_site("2"))
    assert report.done, list(log)
    assert report.kept == ("CNAME", "recipes/note.txt")
    assert (into / "CNAME").read_text() == "book.example\n"
    assert (into / "recipes" / "note.txt").read_text() == "mine"
    assert (into / "empty").is_dir()
    assert (into / "index.html").read_text() == "<p>index.html 2</p>"


def test_files_no_longer_written_are_removed_with_their_folders(
    make_site: Make, write: Write, into: Path
) -> None:
    write(make_site("1", "index.html", "recipes/a/index.html", "recipes/b/index.html"))
    report, _ = write(make_site("1", "index.html", "recipes/b/index.html"))
    assert report.removed == ("recipes/a/index.html",)
    assert report.added == report.rewritten == ()
    assert report.changed == 1
    assert not (into / "recipes" / "a").exists()
    write(make_site("1", "index.html"))
    assert sorted(os.listdir(into)) == [MANIFEST_NAME, "index.html"]


def test_a_changed_file_no_longer_written_stays(make_site: Make, write: Write, into: Path) -> None:
    write(make_site("1", "index.html", "old.html"))
    (into / "old.html").write_text("changed by hand")
    report, log = write(make_site("2", "index.html"))
    assert report.done, list(log)
    assert (into / "old.html").read_text() == "changed by hand"
    assert report.kept == ("old.html",)
    assert "old.html" not in json.loads((into / MANIFEST_NAME).read_text())["files"]


def test_a_changed_file_in_a_pages_way_is_an_error(
    make_site: Make, write: Write, into: Path, contents: Contents
) -> None:
    write(make_site("1"))
    (into / "index.html").write_text("changed by hand")
    before = contents(into)
    result = write(make_site("2"))
    assert_refused(result, "foreign-file", "index.html", "was changed", folder=into, before=before)
    assert contents(into) == before


def test_a_foreign_file_in_a_pages_way_is_an_error(
    make_site: Make, write: Write, into: Path, contents: Contents
) -> None:
    write(make_site("1", "index.html"))
    (into / "about.html").write_text("mine")
    before = contents(into)
    result = write(make_site("2", "index.html", "about.html"))
    assert_refused(result, "foreign-file", "about.html", "not Potherb's", folder=into, before=before)
    assert contents(into) == before


def test_a_name_that_differs_only_in_case_is_in_the_way(
    make_site: Make, write: Write, into: Path, contents: Contents
) -> None:
    write(make_site("1", "index.html"))
    (into / "About.HTML").write_text("mine")
    before = contents(into)
    result = write(make_site("2", "index.html", "about.html"))
    assert_refused(result, "foreign-file", "About.HTML", folder=into, before=before)


def test_a_foreign_file_where_a_folder_must_go_is_an_error(
    make_site: Make, write: Write, into: Path, contents: Contents
) -> None:
    write(make_site("1", "index.html"))
    (into / "recipes").write_text("mine")
    before = contents(into)
    result = write(make_site("2", "index.html", "recipes/a/index.html"))
    assert_refused(result, "foreign-file", "recipes", folder=into, before=before)


@pytest.mark.parametrize("inside", ["note.txt", ""])
def test_a_foreign_folder_where_a_file_must_go_is_an_error(
    make_site: Make, write: Write, into: Path, contents: Contents, inside: str
) -> None:
    write(make_site("1", "index.html"))
    (into / "about.html").mkdir()
    if inside:
        (into / "about.html" / inside).write_text("mine")
    before = contents(into)
    result = write(make_site("2", "index.html", "about.html"))
    assert_refused(result, "foreign-file", "about.html", folder=into, before=before)
    assert (into / "about.html").is_dir()


def test_a_symbolic_link_as_the_folder_is_refused(
    make_site: Make, write: Write, into: Path, tmp_path: Path
) -> None:
    (tmp_path / "real").mkdir()
    into.symlink_to(tmp_path / "real")
    report, log = write(make_site())
    assert not report.done
    assert slugs(log) == ["foreign-folder"]
    assert os.listdir(tmp_path / "real") == []


@pytest.mark.parametrize("name", ["recipes/photos", "index.html", ".hidden"])
def test_a_symbolic_link_inside_is_refused(
    make_site: Make, write: Write, into: Path, tmp_path: Path, name: str
) -> None:
    write(make_site("1", "index.html", "recipes/a.html"))
    treasure = tmp_path / "treasure"
    treasure.write_text("not ours")
    (into / name).unlink(missing_ok=True)
    (into / name).symlink_to(treasure)
    report, log = write(make_site("2", "index.html"))
    assert not report.done
    assert slugs(log) == ["foreign-folder"]
    assert name in next(iter(log)).message
    assert treasure.read_text() == "not ours"


@pytest.mark.parametrize(
    "path",
    ["../victim.txt", "a/../../victim.txt", "/victim.txt", "a//b", "", ".", "C:\\victim.txt", "a\\b", "\x00"],
)
def test_a_manifest_that_leads_out_of_the_folder_is_refused(
    make_site: Make, write: Write, into: Path, tmp_path: Path, path: str
) -> None:
    victim = tmp_path / "victim.txt"
    victim.write_text("mine")
    write(make_site("1"))
    digest = "0" * 64
    (into / MANIFEST_NAME).write_text(json.dumps({"format": 1, "files": {path: digest}}))
    report, log = write(make_site("2"))
    assert not report.done
    assert slugs(log) == ["foreign-folder"]
    assert victim.read_text() == "mine"
    assert (into / "index.html").read_text() == "<p>index.html 1</p>"


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", '{"format": 2, "files": {}}', '{"format": 1}', '{"format": 1, "files": {"a": "x"}}'],
)
def test_a_manifest_that_is_not_ours_is_refused(make_site: Make, write: Write, into: Path, text: str) -> None:
    into.mkdir()
    (into / MANIFEST_NAME).write_text(text)
    report, log = write(make_site())
    assert not report.done
    assert slugs(log) == ["foreign-folder"]
    assert os.listdir(into) == [MANIFEST_NAME]


def test_the_book_itself_is_never_written_over(
    make_site: Make, write: Write, book: Path, contents: Contents
) -> None:
    before = contents(book.parent)
    inner = [book / name / "site" for name in ("recipes", "gatherings", "pages", "photos")]
    for folder in (book, book.parent, book / "recipes", *inner, book / "recipes" / ".." / "." / "photos"):
        report, log = write(make_site(), folder)
        assert not report.done
        assert slugs(log) == ["foreign-folder"], folder
    assert contents(book.parent) == before


def test_the_book_is_recognised_through_a_link(
    make_site: Make, write: Write, book: Path, tmp_path: Path, contents: Contents
) -> None:
    (tmp_path / "link").symlink_to(book)
    before = contents(book)
    report, log = write(make_site(), tmp_path / "link" / "recipes" / "site")
    assert not report.done
    assert slugs(log) == ["foreign-folder"]
    assert contents(book) == before


def test_a_folder_inside_the_book_but_not_of_its_content_is_allowed(
    make_site: Make, write: Write, book: Path
) -> None:
    report, log = write(make_site(), book / "site")
    assert report.done, list(log)


def test_a_manifest_does_not_make_the_book_ours(make_site: Make, write: Write, book: Path) -> None:
    for folder in (book, book.parent):
        (folder / MANIFEST_NAME).write_text('{"format": 1, "files": {}}')
        report, log = write(make_site(), folder)
        assert not report.done
        assert slugs(log) == ["foreign-folder"]
        assert not (folder / "index.html").exists()


def test_rights_are_kept(make_site: Make, write: Write, into: Path) -> None:
    write(make_site("1"))
    into.chmod(0o750)
    write(make_site("2"))
    assert into.stat().st_mode & 0o777 == 0o750


def test_what_the_system_refuses_is_a_problem_and_no_traceback(
    make_site: Make, write: Write, into: Path, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("")
    report, log = write(make_site(), tmp_path / "file" / "output")
    assert not report.done
    assert slugs(log) == ["cannot-write"]
