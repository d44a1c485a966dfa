"""Standard MIDI File, format 1: the piece as it is performed."""
