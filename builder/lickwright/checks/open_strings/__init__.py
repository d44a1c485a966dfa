"""Open strings: where they serve, and what they are claimed to do."""
