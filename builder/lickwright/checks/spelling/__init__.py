"""What notes, chords and keys are called."""
