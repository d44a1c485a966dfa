"""What the music is: roles over the harmony; a resolved piece in, values out.

``classify(piece)`` gives the role of every note.
"""

from lickwright.analysis.classifier import classify
from lickwright.analysis.role import Role, RoleOf

__all__ = ["Role", "RoleOf", "classify"]
