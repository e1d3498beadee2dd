"""The facts of a recipe's meat that a cure and its limits ask for."""
