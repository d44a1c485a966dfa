"""The second witness: note names and degrees the author gives, against the notes."""
