"""Music theory as exact tables; imports nothing of ours but the trade's words.

Conventions: pitch classes count half steps above C, 0 to 11; MIDI numbers have C4 at 60; time is
in exact fractions of a quarter note. Readers (``parse_...``) take any text, give ``None`` for what
they cannot read and never raise; ``suggest_...`` give the nearest text that reads.
"""
