"""The forms of the language."""
