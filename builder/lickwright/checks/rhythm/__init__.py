"""Bars, beats and repeats: what must add up."""
