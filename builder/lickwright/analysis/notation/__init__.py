"""Music as it is written down: note values and ties, tuplets, accidentals, beam groups.

What the staff shows and what a file for another program holds rest on the same cut.
"""
