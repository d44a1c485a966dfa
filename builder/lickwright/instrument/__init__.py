"""The guitar: tunings, the fretboard in millimetres, harmonics, the hand, a simple fingering.

Conventions: strings count from 1, the last in the author's tuning (usually the highest-sounding);
frets count from the capo, 0 is open; lengths are millimetres. Nothing assumes six strings or
standard tuning.
"""
