"""Words after which a sentence no longer says what the notes are: negation, wish, comparison."""

from __future__ import annotations

HEDGES: tuple[str, ...] = (
    *("not", "never", "no", "none", "nor", "neither", "nobody", "without", "instead of"),
    *("rather than", "no longer", "any other", "would", "could", "might", "should", "if", "unless"),
    *("as if", "almost", "nearly", "imagine", "avoid", "skip", "leave out", "leaving out", "missing"),
    *("instead", "than", "except", "but for", "try", "wants to", "want to", "used to", "once was"),
    *(
        "before you",
        "when you",
        "whether",
        "expect",
        "expected",
        "nowhere",
        "elsewhere",
        "any",
        "do you",
        "is it",
        "can you",
    ),
)
"""All, in lower case."""

SUPPOSED: tuple[str, ...] = (
    "would",
    "could",
    "might",
    "should",
    "if",
    "unless",
    "imagine",
    "whether",
    "expect",
    "expected",
    "nowhere",
    "elsewhere",
)
"""Those that make a supposition of the whole clause they stand in."""

HEDGE = rf"(?:\b(?:{'|'.join(HEDGES)})\b|[a-z]+n[’']t\b)"
"""Pattern of a hedge."""
