"""Notation: from music to one SVG a system, staff and tab.

Conventions: coordinates inside an SVG are Verovio's (a staff space is 180 units, two widths are
both shown at 0.05 px a unit); durations are fractions of a quarter; a *local id* is an id before
the order's prefix. Nothing an author wrote reaches an attribute that Verovio reads as a number.
"""
