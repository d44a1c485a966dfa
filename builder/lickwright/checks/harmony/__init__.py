"""Notes against chords and key."""
