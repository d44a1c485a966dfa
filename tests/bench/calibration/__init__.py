"""Music on which the checker is calibrated, what is planted in it, and the figures."""
