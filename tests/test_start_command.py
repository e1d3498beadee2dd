"""A new book: it builds at once, and never over what lies there."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main


def potherb(*words: str) -> Result:
    return CliRunner().invoke(main, words)


def texts(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_a_new_book_has_no_problem_and_builds(tmp_path: Path) -> None:
    folder = tmp_path / "a new book"
    said = potherb("start", str(folder))
    assert said.exit_code == 0, said.output
    assert f"potherb preview '{folder}'" in said.output, "what to type next, as a shell takes it"
    checked = potherb("check", str(folder))
    assert checked.exit_code == 0
    assert checked.output.startswith("No problems.\n")
    built = potherb("site", str(folder))
    assert built.exit_code == 0, built.output
    page = (folder / "output/recipes/smoked-shank/index.html").read_text(encoding="utf-8")
    assert "curing salt" in page, "a cured piece is weighed"
    assert "smoked-shank" in (folder / "output/recipes/bean-pot/index.html").read_text(encoding="utf-8")


def test_what_to_type_next_is_found_by_the_shell(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Called by its path, because nothing put it on the PATH, it is called by that path again."""
    monkeypatch.setattr("sys.argv", ["my tools/bin/potherb"])
    monkeypatch.setenv("PATH", str(tmp_path))
    assert "'my tools/bin/potherb' preview" in potherb("start", str(tmp_path / "one")).output
    (tmp_path / "potherb").touch(mode=0o755)
    assert "\npotherb preview" in potherb("start", str(tmp_path / "two")).output


def test_an_empty_folder_will_do_and_hidden_files_stay(tmp_path: Path) -> None:
    (tmp_path / ".hidden").write_text("mine", encoding="utf-8")
    assert potherb("start", str(tmp_path)).exit_code == 0
    assert (tmp_path / ".hidden").read_text(encoding="utf-8") == "mine"
    assert (tmp_path / "content/book.yaml").is_file()


def test_started_twice_is_refused_and_changes_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    potherb("start", str(folder))
    before = texts(folder)
    said = potherb("start", str(folder))
    assert said.exit_code == 2
    assert f"'{folder}' holds files already. Name a folder that is not there yet." in said.output
    assert texts(folder) == before


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    file = tmp_path / "book"
    file.write_text("mine", encoding="utf-8")
    said = potherb("start", str(file))
    assert said.exit_code == 2
    assert f"'{file}' is a file. Name a folder that is not there yet." in said.output
    assert file.read_text(encoding="utf-8") == "mine"


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    said = potherb("start", str(tmp_path / "file" / "book"))
    assert said.exit_code == 2
    assert "cannot be written: Not a directory." in said.output


@pytest.mark.parametrize("word", ["smoked-shank", "bean-pot"])
def test_each_recipe_of_a_new_book_has_a_sheet(
    tmp_path: Path, word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    potherb("start", str(tmp_path / "book"))
    monkeypatch.chdir(tmp_path / "book")
    said = potherb("sheet", word)
    assert said.exit_code == 0, said.output
