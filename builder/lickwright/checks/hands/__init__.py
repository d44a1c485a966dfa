"""What two hands and a neck can do."""
