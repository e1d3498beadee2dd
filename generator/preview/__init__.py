"""The preview: a book's folder and a way to build it in; the site on this machine while one writes, out."""

from generator.preview.run import preview_book

__all__ = ["preview_book"]
