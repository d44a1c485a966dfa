"""The rules, one file each in a folder for its group, and the proof that runs them.

A rule is a module ``GROUP/FAULT.py`` with a docstring (the handbook's page), examples (its tests)
and one ``RULE``. ``proof`` runs them all; ``handbook`` reads their pages.
"""

from lickwright.checks.proof import Proof, proof

__all__ = ["Proof", "proof"]
