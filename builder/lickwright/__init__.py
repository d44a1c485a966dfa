"""Lickwright: a builder of self-paced guitar courses taught by the lick.

One source, everything else derived: a course is text, the builder is a compiler
for it. ``DEVELOPERS.md`` maps the packages; a package imports only from those
below it.
"""

__version__ = "0.1.0"
