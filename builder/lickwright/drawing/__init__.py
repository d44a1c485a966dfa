"""Pictures of the neck: places under the hand, and chords as they are held.

A picture is plain SVG in ``currentColor``, without style, script, id or outside reference, and a twin in
words that says the same. What a dot is shows by its shape as well as by its letter: a root is filled and
ringed, a tone of the chord or scale filled, a blue note a diamond, any other open.

Conventions: lengths are px at the size in which a picture is meant to be shown. The neck lies as a tab
does, string 1 on top, and its frets are spaced as the wood has them, so that a reach looks as wide as it
is. A chord stands as a box of even frets, the nut on top. For a left-handed guitar both are mirrored:
their words, and the tab, stay as they are. Frets count from the capo.

References: fret distances by the twelfth root of two; inlays at 3 5 7 9 12 15 17 19 21 24 and the box of a
chord in common practice.
"""
