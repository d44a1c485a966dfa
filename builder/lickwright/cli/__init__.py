"""The commands; row 10, the only package that prints or exits.

Exit status: 0 clean (queries and notes allowed), 1 errors found (or queries with ``--strict``), 2 the command
could not run. A command's module is loaded when it is called, and what is slow only when it is needed.
"""

from lickwright.cli.group import main

__all__ = ["main"]
