"""Findings for people and for programs: one renderer a file, each a function of the findings."""
