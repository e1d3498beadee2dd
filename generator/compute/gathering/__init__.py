"""A gathering and a book in; what is made, and when, out."""
