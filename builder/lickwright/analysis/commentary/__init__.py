"""The role line in plain words: what the notes of a lick do, joined as a guitarist would say it.

``comment(analysis)`` gives the remarks; :func:`in_bar` those that begin in a bar.
"""

from lickwright.analysis.commentary.comment import comment, in_bar
from lickwright.analysis.commentary.remark import NoteRemark, Remark

__all__ = ["NoteRemark", "Remark", "comment", "in_bar"]
