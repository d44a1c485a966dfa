"""How fast the hands have to be."""
