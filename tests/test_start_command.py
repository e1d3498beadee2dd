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


CARD = """Pork cake, Mother's

1 lb raisins
2 lb 3 cups flour

Mix, bake 350 till done. Serves 6
"""


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "book.yaml").write_text("title: Book\n", encoding="utf-8")
    (tmp_path / "card.txt").write_text(CARD, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_an_old_card_becomes_a_draft_that_says_what_it_asks(book: Path) -> None:
    said = potherb("start", "--recipe", "Pork cake", "--from", "card.txt")
    assert said.exit_code == 0, said.output
    assert "Wrote recipes/pork-cake.md, a draft until 1 question in it is answered:\n" in said.output
    assert '  ? "2 lb 3 cups flour": ' in said.output
    text = (book / "recipes/pork-cake.md").read_text(encoding="utf-8")
    assert text.startswith(
        "---\nname: Pork cake\nfrom: Mother's\nserves: 6\ningredients:\n  - 1 lb raisins\n  # ? "
    )
    assert text.endswith("---\n\nMix, bake 350 °F till done.\n"), "as ovens of a US book are told"
    checked = potherb("check")
    assert checked.exit_code == 0, "a question is no error"
    assert "recipes/pork-cake.md:7:3: warning: Not answered yet: " in checked.output
    built = potherb("site", "--into", "site")
    assert built.exit_code == 0, built.output
    assert not (book / "site/recipes/pork-cake").exists(), "a draft"
    sheet = potherb("sheet", "pork-cake")
    assert sheet.exit_code == 0, sheet.output
    assert "Not answered yet" in sheet.output
    (book / "recipes/pork-cake.md").write_text(
        "\n".join(line for line in text.splitlines() if "# ?" not in line), encoding="utf-8"
    )
    assert potherb("check").output.startswith("No problems.\n")


def test_what_only_the_reckoning_finds_is_asked_too(book: Path) -> None:
    """Salt of no crystal in what keeps by it: read well, and refused when it is weighed."""
    (book / "card.txt").write_text(
        "Eels\n\n6 eels\n1 gal water\n2 cups salt\n\nBrine overnight. Serves 6.\n", encoding="utf-8"
    )
    said = potherb("start", "--recipe", "eels", "--from", "card.txt")
    assert said.exit_code == 0
    assert potherb("check").exit_code == 0, said.output


CORNED = """Corned Venison

8 lbs. deer roast
2 qts. water
1 1/2 c. coarse salt
1/2 c. brown sugar
2 tsp. saltpeter
5 cloves garlic

Boil brine & cool. Put meat in crock, keep cold 10 days. Simmer 3 hrs. Serves 8
"""


def test_saltpetre_of_a_card_is_judged_once_its_lines_are_filled_in(book: Path) -> None:
    """Only the signs before the lines are taken away, as the question says, and the question is deleted."""
    (book / "card.txt").write_text(CORNED, encoding="utf-8")
    potherb("start", "--recipe", "corned", "--from", "card.txt")
    path = book / "recipes/corned.md"
    text = path.read_text(encoding="utf-8")
    assert potherb("check").exit_code == 0, "asked, and in no place"
    assert "- 2 tsp. saltpeter" not in text
    lines = [line for line in text.splitlines() if not line.startswith("# ? cure:")]
    path.write_text("\n".join(line.removeprefix("# ") for line in lines), encoding="utf-8")
    said = potherb("check")
    assert said.exit_code == 1
    assert "above the limit of 500 ppm for home cures" in said.output
    assert "[nitrate-above-limit]" in said.output


def test_a_card_that_asks_nothing_is_to_be_read_against_it(book: Path) -> None:
    (book / "card.txt").write_text("Cake\n\n1 lb raisins\n2 eggs\n\nBake. Serves 6\n", encoding="utf-8")
    said = potherb("start", "--recipe", "cake", "--from", "card.txt")
    assert said.output == ("Wrote recipes/cake.md.\nAll of it was understood. Read it against the card.\n")


def test_what_is_dangerous_stays_in_place_with_its_error(book: Path) -> None:
    (book / "card.txt").write_text("Greens\n\n2 lb poke leaves\n2 eggs\n\nFry. Serves 6.\n", encoding="utf-8")
    said = potherb("start", "--recipe", "greens", "--from", "card.txt")
    assert "recipes/greens.md:5:5: error: " in said.output
    assert "[contradicts-danger]" in said.output
    assert "  - 2 lb poke leaves\n" in (book / "recipes/greens.md").read_text(encoding="utf-8")
    assert "DANGER" in potherb("check", "--cautions").output


def test_without_a_card_there_is_a_template(book: Path) -> None:
    said = potherb("start", "--recipe", "recipes/pork-cake.md")
    assert said.exit_code == 0, said.output
    text = (book / "recipes/pork-cake.md").read_text(encoding="utf-8")
    assert text.startswith("---\nname: Pork cake\n# ? serves: ")
    assert potherb("check").exit_code == 0
    assert potherb("sheet", "pork-cake").exit_code == 0


def test_a_recipe_that_is_there_stays(book: Path) -> None:
    potherb("start", "--recipe", "Pork cake", "--from", "card.txt")
    before = texts(book)
    said = potherb("start", "--recipe", "PORK CAKE")
    assert said.exit_code == 1
    assert "recipes/pork-cake.md is there already, and stays as it is. [foreign-file]" in said.output
    assert texts(book) == before


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["--recipe", "???"], 1, "'???' cannot become the name of a file."),
        (["--recipe", "con"], 1, "is a name that some systems keep for themselves"),
        (["--recipe", "x", "--from", "empty.txt"], 1, "There are no words on the card."),
        (["--recipe", "x", "--from", "old.txt"], 1, "old.txt is not UTF-8 text."),
        (["--recipe", "x", "--from", "nowhere.txt"], 2, "does not exist"),
        (["elsewhere", "--recipe", "x"], 1, "There is no book.yaml in 'elsewhere'"),
        (["--from", "card.txt"], 2, "--from makes a recipe: name it with --recipe NAME."),
        ([], 2, "Name the folder of a new book, or a new recipe with --recipe NAME."),
    ],
)
def test_what_cannot_be_started_is_told_and_nothing_is_written(
    book: Path, words: list[str], code: int, told: str
) -> None:
    (book / "empty.txt").write_text(" \n\n", encoding="utf-8")
    (book / "old.txt").write_bytes("Crème\n".encode("latin-1"))
    before = texts(book)
    said = potherb("start", *words)
    assert said.exit_code == code, said.output
    assert told in said.output
    assert texts(book) == before
