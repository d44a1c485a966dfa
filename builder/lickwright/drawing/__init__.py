"""Pictures of the neck: places under the hand, and chords as they are held.

A picture is plain SVG in ``currentColor``, without style, script or outside reference, and a twin in words
that says the same; for left-handed players it is mirrored. What a dot is shows by its shape as well as by
its letter: a root is ringed, a chord tone or a note of the scale filled, a blue note a diamond, others open.
"""
