"""The music as data: what an author wrote, and what it resolves to. No input, no output."""
