"""Potherb: a folder of Markdown recipes in, a family's wild-food book as a static site out."""

__version__ = "0.1.0"
