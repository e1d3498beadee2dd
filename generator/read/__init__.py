"""Stage 1: the files of a book in, records of what their authors wrote out, with a problem for every slip."""

from generator.read.book import BOOK_FILE, read_book
from generator.read.cure import parse_strength
from generator.read.cure_keys import read_typed_cure
from generator.read.draft import Draft
from generator.read.folder import DROPPINGS, Kind, find_file, kind_of, unopened
from generator.read.grammar import Grammar, certain
from generator.read.moment import parse_moment
from generator.read.number import ANY, AmountError
from generator.read.quantity import parse_amount
from generator.read.start import start_draft
from generator.read.temperature import parse_temperature

__all__ = [
    "ANY",
    "BOOK_FILE",
    "DROPPINGS",
    "AmountError",
    "Draft",
    "Grammar",
    "Kind",
    "certain",
    "find_file",
    "kind_of",
    "parse_amount",
    "parse_moment",
    "parse_strength",
    "parse_temperature",
    "read_book",
    "read_typed_cure",
    "start_draft",
    "unopened",
]
