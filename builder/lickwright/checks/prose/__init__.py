"""The words of the lesson, held against the notes they point at."""
