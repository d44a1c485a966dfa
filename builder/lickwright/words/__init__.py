"""A piece in words, in the order in which it is played: for who cannot see the page.

A bar is a heading and one line a voice; a line is sentences, one a sound, rest or held sound::

    Bar 2, over A seven, eighths unless said
    Beat 1: string 2 fret 15, D, bend a whole step to E, as at fret 17; down-stroke; half. 3 and: …

A sentence is a place and parts, by semicolons: grace notes; the join and the strings, each with its
note and what is done on it, by commas, and several by ``with``; then what is done to the whole sound,
its length where it is not the bar's usual one, brackets that begin or end. Nothing of the page is left
out: who listens learns the lick from it. A reader of these words stands in the tests, written without
sight of this package, and gives back the music.

Left unsaid: ``degrees`` and ``names`` of the author's witness rows (the notes are named anyway), and what
the page says over the notes: title, key, tempo, feel, tuning, capo.
"""
