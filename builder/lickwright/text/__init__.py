r"""Source text and places in it; imports nothing of ours.

Conventions: offsets are 0-based code points into the text; lines and columns are
1-based and count code points too. Texts are held with ``\\n`` as the line end.
"""

from lickwright.text.passage import Passage
from lickwright.text.source import Source, Span

__all__ = ["Passage", "Source", "Span"]
