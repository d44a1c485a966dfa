"""The timeline: references resolved, repeats unfolded, every sound in its place.

``resolve`` turns a course as read into a book of pieces, once for all consumers;
``play`` gives the order of playing of one of them.
"""

from lickwright.model.timeline.book import Book, PlacedPiece, resolve
from lickwright.model.timeline.harmony import Grid, GridBar
from lickwright.model.timeline.played import Played, PlayedBar, play, play_bars

__all__ = ["Book", "Grid", "GridBar", "PlacedPiece", "Played", "PlayedBar", "play", "play_bars", "resolve"]
