"""Findings that the author lets stand."""
