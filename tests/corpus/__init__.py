"""Lines, phrases, recipes and cards as cooks write them, with what each must come to: see run.py."""
