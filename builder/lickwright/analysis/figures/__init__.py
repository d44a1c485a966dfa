"""The figures that explain a note, one file a group; each is a function from a moment to a role."""
