"""Computed records in, frozen records of strings out, a file for each page kind. No HTML but prose."""
