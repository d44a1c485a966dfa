"""What the builder says about an author's text."""

from lickwright.findings.finding import Edit, Finding, Fix, Label, Severity

__all__ = ["Edit", "Finding", "Fix", "Label", "Severity"]
