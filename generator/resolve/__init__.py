"""Stage 2: a manuscript in, a book out whose links are followed."""

from generator.resolve.book import resolve_book

__all__ = ["resolve_book"]
