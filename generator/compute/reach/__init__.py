"""How far salt and nitrite have got into the piece of a recipe."""
