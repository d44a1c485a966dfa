"""The fingering of a scale: which string, fret and finger plays each note.

``plain`` keeps the hand in one place, or moves it as little as can be; ``ringing`` lets open strings
sound wherever the scale has them, no two neighbours on one string. Both are cheapest paths through a
layered graph: a layer a note, a node each place of it.

Conventions: pitches are sounding MIDI numbers, strings count from 1 (highest-sounding), frets from the
capo. Costs are whole numbers, so that equal costs are equal; equal paths are told apart by string and fret.

References: fingering as a shortest path after Sayegh (1989, from memory) and Radicioni and Lombardo; the
weights are our own. Scales that ring over open strings: common practice of country players.
"""
