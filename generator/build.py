"""A book's folder in, a finished site or a list of problems out: the five stages, in order, on one screen."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from generator.compute import Kitchen, Wish, compute_book, compute_recipe, judge_text
from generator.compute.gathering import plan_gathering
from generator.model.book import Book
from generator.model.gathering import Invited
from generator.model.plan import Plan
from generator.model.recipe import Recipe
from generator.model.results import ComputedBook, ComputedRecipe, JudgedText
from generator.model.slug import fold
from generator.problems import BookError, Position, Problem, ProblemLog, nearest, visible
from generator.read import BOOK_FILE, Kind, find_file, kind_of, read_book, start_draft, unopened
from generator.render import ThemeError, load_theme, render_book
from generator.resolve import resolve_book
from generator.tables import load_tables
from generator.write import PhotoCache, write_site
from generator.write.files import write_new

Progress = Callable[[str], None]
"Told the name of each stage as it begins."

NO_BOOK_HINT = "Name the folder that holds book.yaml, or start a book there."
NO_BOOK_FOR_A_NAME = (
    "Go to the folder that holds book.yaml, or name the file by its path, such as my-book/recipes/{}.md."
)
NO_BOOK_FOR_A_FILE = "Put it into the folder recipes/ or gatherings/ beside a book.yaml."


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildReport:
    """What a build did."""

    title: str
    into: Path
    recipes: int
    pages: int
    changed: int
    problems: tuple[Problem, ...]
    "Warnings, and the errors of holes where they are shown; a build with others raises BookError instead."
    unmet: tuple[str, ...] = ()
    "Names of gatherings that cannot be met as they are written; their pages say why."


def find_book(start: Path, hint: str = NO_BOOK_HINT) -> Path:
    """The folder with a book.yaml: here, or `content/` below here. Raises BookError where there is none."""
    for folder in (start, start / "content"):
        if _lies_at(folder / BOOK_FILE):
            return folder
    raise BookError(
        (
            Problem(
                slug="no-book",
                position=Position(str(start)),
                message=f"There is no book.yaml in '{start}' nor in '{start / 'content'}'.",
                hint=hint,
            ),
        )
    )


def _lies_at(path: Path) -> bool:
    """True where anything lies at a path; BookError where the system does not let us look."""
    try:
        return kind_of(path) is not Kind.NOTHING
    except OSError as error:
        raise BookError((unopened(str(path.parent), error),)) from error


def default_output(book: Path) -> Path:
    """`output/` beside the book's folder."""
    return book.resolve().parent / "output"


@cache
def kitchen() -> Kitchen:
    """The published tables and the way amounts are shown, loaded once."""
    return Kitchen.of(load_tables())


def _quiet(stage: str) -> None:
    return None


def load_book(folder: Path, kitchen: Kitchen, log: ProblemLog, progress: Progress = _quiet) -> Book | None:
    """read → resolve; None where nothing can be computed: no book, or recipes that need each other in a circle."""
    progress("read")
    manuscript = read_book(folder, kitchen.tables, log)
    if manuscript is None:
        return None
    progress("resolve")
    book = resolve_book(manuscript, log)
    return None if any(problem.slug == "cycle" for problem in log) else book


def compute(
    folder: Path, kitchen: Kitchen, log: ProblemLog, progress: Progress = _quiet
) -> ComputedBook | None:
    """read → resolve → compute, every problem of every recipe in the log."""
    book = load_book(folder, kitchen, log, progress)
    if book is None:
        return None
    progress("compute")
    computed = compute_book(book, kitchen)
    for recipe in computed.recipes.values():
        log.extend(recipe.problems)
    for text in computed.texts.values():
        log.extend(text.problems)
    return computed


@dataclass(frozen=True, slots=True, kw_only=True)
class StartedRecipe:
    """A new file of a book."""

    path: Path
    questions: tuple[str, ...]
    "What waits for an answer in it: until then it is a draft."
    problems: tuple[Problem, ...]
    "Errors that are no question of one line."


def start_recipe(start: Path, name: str, card: Path | None) -> StartedRecipe:
    """Write a new recipe into a book, from the text of an old card where one is named.

    Raises BookError where there is no book, no name or no card, and where the file is there; OSError where it cannot
    be written.
    """
    folder, log = find_book(start), ProblemLog()
    started = start_draft(folder, name, card, kitchen().tables, log)
    if started is None:
        raise BookError(log.sorted())
    slug, draft = started
    path = folder / "recipes" / f"{slug}.md"
    write_new(path, draft.text)
    problems = _errors_of(folder, slug)
    judged = draft.asked(problem for problem in problems if problem.slug in _ASKED_LATER)
    if judged != draft:  # what only the reckoning found: the file is ours, and nobody has seen it yet
        path.write_text(judged.text, encoding="utf-8")
        problems = _errors_of(folder, slug)
    return StartedRecipe(path=path, questions=judged.questions, problems=problems)


_ASKED_LATER = ("unknown-crystal",)
"Of what the reckoning finds only what the words lack: what is dangerous stays in place, with its error and its box."


def _errors_of(folder: Path, slug: str) -> tuple[Problem, ...]:
    file = f"recipes/{slug}.md"
    found = check_recipes(folder).problems
    return tuple(p for p in found if p.is_error and p.position and p.position.file == file)


def check_book(folder: Path) -> tuple[Problem, ...]:
    """Every problem of a book, sorted by place; nothing is written."""
    return check_recipes(folder).problems


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What is found in a book."""

    problems: tuple[Problem, ...]
    recipes: tuple[ComputedRecipe, ...] = ()
    "Every recipe that could be computed, with its boxes, by slug; drafts among them."
    texts: tuple[JudgedText, ...] = ()
    "Of the gatherings, with their boxes."
    plans: tuple[Plan, ...] = ()
    "Of the gatherings, where the book itself has no errors."
    is_read: bool = True
    "False: its language is not English, and no sentence of it is read for what is dangerous."

    @property
    def judged(self) -> tuple[ComputedRecipe | JudgedText, ...]:
        """Everything that has boxes."""
        return (*self.recipes, *self.texts)


def check_recipes(folder: Path) -> Checked:
    """Every problem of a book, its recipes and its plans."""
    log = ProblemLog()
    computed = compute(folder, kitchen(), log)
    if computed is None:
        return Checked(problems=log.sorted())
    plans = () if log.has_errors else plans_of(computed.book)
    return Checked(
        problems=log.sorted(),
        recipes=tuple(computed.recipes.values()),
        texts=tuple(computed.texts.values()),
        plans=plans,
        is_read=computed.book.config.is_english,
    )


def build_site(
    folder: Path,
    *,
    into: Path,
    progress: Progress = _quiet,
    photos: PhotoCache | None = None,
    with_holes: bool = False,
) -> BuildReport:
    """read → resolve → compute → render → write. On any error nothing is written and BookError is raised.

    `with_holes` writes also recipes that are not read as a whole, as long as no gathering is planned with one.
    `photos` keeps photos that are done from one build to the next: a preview does each only once.
    """
    log = ProblemLog()
    computed = compute(folder, kitchen(), log, progress)
    errors = frozenset(problem for problem in log if problem.is_error)
    if computed is None or (errors and not (with_holes and errors <= _shown_open(log, computed))):
        raise BookError(log.sorted())
    progress("plan")
    plans = plans_of(computed.book)
    progress("render")
    try:
        theme = load_theme(computed.book.config.theme)
        site = render_book(computed, plans, tables=load_tables(), theme=theme)
    except ThemeError as error:
        raise BookError((_broken_theme(computed, error),)) from error
    progress("write")
    written = ProblemLog()
    report = write_site(site, into=into, book=folder, log=written, photos=photos)
    log.extend(written)
    if written.has_errors:
        raise BookError(log.sorted())
    return BuildReport(
        title=computed.book.config.title,
        into=into,
        recipes=sum(not recipe.draft for recipe in computed.book.recipes.values()),
        pages=len(site.pages),
        changed=report.changed,
        problems=log.sorted(),
        unmet=tuple(plan.invited.gathering.name for plan in plans if plan.cannot_be_met),
    )


def _shown_open(log: ProblemLog, computed: ComputedBook) -> frozenset[Problem]:
    """The errors that a preview marks on its pages; none where a plan would go by what is not read."""
    book = computed.book
    planned = {
        part
        for invited in book.gatherings
        for _, dish in invited.dishes
        for part in (dish, *components_of(book, dish))
    }
    if any(book.recipes[slug].holes for slug in planned):
        return frozenset()
    judged = {problem for recipe in computed.recipes.values() for problem in recipe.problems}
    return _left_open(log, book, book.recipes) - judged


def _broken_theme(computed: ComputedBook, error: ThemeError) -> Problem:
    """While a theme is written it is not whole at every moment: a preview tells it and goes on."""
    name = computed.book.config.theme
    return Problem(
        slug="broken-theme",
        message=f"The theme '{name}' cannot be used: {error}.",
        hint=f"Mend it, or take another theme in {computed.book.config.file}.",
    )


def plans_of(book: Book) -> tuple[Plan, ...]:
    """The plan of every gathering that is published; what cannot be met stands in the plan and stops nothing."""
    return tuple(
        plan_gathering(book, invited, kitchen()) for invited in book.gatherings if not invited.gathering.draft
    )


def find_recipe(name: str, start: Path) -> tuple[Path, str]:
    """The book's folder and the slug of a RECIPE: a slug of the default book, or a path to a file."""
    path = Path(name)
    if path.suffix == ".md" and _lies_at(path):
        for folder in path.resolve().parents:
            if _lies_at(folder / BOOK_FILE):
                return folder, fold(path.stem)
        return find_book(path.resolve().parent, NO_BOOK_FOR_A_FILE), fold(path.stem)
    if path.parent != Path(".") and not _lies_at(path):
        hint = "Name a recipe or a gathering of the book you stand in, or its file, which ends in .md."
        problem = Problem(slug="unknown-link", message=f"There is no file '{name}'.", hint=hint)
        raise BookError((problem,))
    return find_book(start, NO_BOOK_FOR_A_NAME.format(path.stem)), name


def read_recipe_of(folder: Path, slug: str) -> Recipe:
    """One recipe as its file has it. Raises BookError where it is not there or has errors."""
    log = ProblemLog()
    book = load_book(folder, kitchen(), log)
    if book is None or slug not in book.recipes:
        raise BookError(_no_such_recipe(slug, book, log))
    return book.recipes[slug]


def compute_sheet(
    folder: Path, slug: str, wish: Callable[[Book], Wish]
) -> tuple[ComputedRecipe, ComputedBook]:
    """One recipe at the scale that a wish asks for, with its components as written.

    Raises BookError for errors of the recipe's own file, of its components and of book.yaml, and for no others. Where
    one of them has holes, what could not be read of it stops nothing: it stands among the recipe's problems.
    What this scale alone makes wrong (a cure above its limit) stays in the recipe's own problems.
    """
    log = ProblemLog()
    book = load_book(folder, kitchen(), log)
    if book is None or slug not in book.recipes:
        raise BookError(_no_such_recipe(slug, book, log))
    parts = components_of(book, slug)
    unread = _left_open(log, book, (slug, *parts))
    components = {part: compute_recipe(book, part, kitchen()) for part in parts}
    for component in components.values():
        log.extend(component.problems)
    files = {book.recipes[part].file for part in (slug, *parts)} | {book.config.file}
    own = tuple(p for p in log.sorted() if p.is_error and p.position and p.position.file in files)
    if not unread.issuperset(own):
        raise BookError(own)
    recipe = compute_recipe(book, slug, kitchen(), wish(book))
    recipe = replace(recipe, problems=tuple(dict.fromkeys((*own, *recipe.problems))))
    return recipe, ComputedBook(book=book, recipes={slug: recipe, **components})


def _left_open(log: ProblemLog, book: Book, slugs: Iterable[str]) -> frozenset[Problem]:
    """Errors of reading that stop no reckoning: those of recipes with holes, each of which is kept without them."""
    files = {book.recipes[slug].file for slug in slugs if book.recipes[slug].holes}
    return frozenset(p for p in log if p.is_error and p.position and p.position.file in files)


def find_gathering(name: str, start: Path) -> tuple[Path, str] | None:
    """The book's folder and the slug of a GATHERING; None where the name is that of a recipe, or of nothing.

    A name that is both is refused with a BookError: the path of the file says which is meant.
    """
    folder, slug = find_recipe(name, start)
    path, found = Path(name), find_file(folder, "gatherings", slug)
    if found is None:
        return None
    if path.suffix == ".md" and _lies_at(path):
        return (folder, slug) if path.resolve() == found.resolve() else None
    if find_file(folder, "recipes", slug) is not None:
        message = f"'{slug}' is a recipe and a gathering of this book."
        hint = f"Name the file: recipes/{slug}.md or gatherings/{slug}.md."
        raise BookError((Problem(slug="same-slug", message=message, hint=hint),))
    return folder, slug


def compute_gathering(folder: Path, slug: str) -> tuple[Plan, ComputedBook]:
    """One gathering's plan, and all recipes it needs as written.

    Raises BookError for errors of the gathering's own file, of its recipes and of book.yaml, and for no others. What
    cannot be met stays in the plan's own problems.
    """
    log = ProblemLog()
    book = load_book(folder, kitchen(), log)
    invited = None if book is None else _invited(book, slug)
    if book is None or invited is None:
        raise BookError(_no_such_recipe(slug, book, log))
    dishes = [dish for _, dish in invited.dishes]
    parts = dict.fromkeys((*dishes, *(part for dish in dishes for part in components_of(book, dish))))
    recipes = {part: compute_recipe(book, part, kitchen()) for part in parts}
    text = judge_text(book, invited.gathering, kitchen().tables)
    for recipe in recipes.values():
        log.extend(recipe.problems)
    log.extend(text.problems)
    files = {book.recipes[part].file for part in parts} | {invited.gathering.file, book.config.file}
    own = tuple(p for p in log.sorted() if p.is_error and p.position and p.position.file in files)
    if own:
        raise BookError(own)
    computed = ComputedBook(book=book, recipes=recipes, texts={slug: text})
    return plan_gathering(book, invited, kitchen()), computed


def _invited(book: Book, slug: str) -> Invited | None:
    return next((one for one in book.gatherings if one.gathering.slug == slug), None)


def components_of(book: Book, slug: str) -> tuple[str, ...]:
    """Every component a recipe needs, however deep, each once."""
    found: dict[str, None] = {}
    for use in book.uses_of(slug):
        found[use.component] = None
        found.update(dict.fromkeys(components_of(book, use.component)))
    return tuple(found)


def _no_such_recipe(slug: str, book: Book | None, log: ProblemLog) -> tuple[Problem, ...]:
    """Why a recipe cannot be had: its own file could not be read, the book could not, or no such file is there."""
    errors = tuple(problem for problem in log.sorted() if problem.is_error)
    own = tuple(p for p in errors if p.position and _hides(slug, p.position.file))
    if own or book is None:
        return own or errors
    return (
        Problem(
            slug="unknown-link",
            message=f"'{slug}' is no recipe of this book.",
            hint=nearest(slug, book.recipes) or "Name a recipe by its file's name without .md.",
        ),
    )


def _hides(slug: str, file: str) -> bool:
    """True for the file of a slug, and for a folder that could hold it."""
    return fold(Path(file).stem) == visible(slug) or file in ("recipes", "gatherings")
