"""The words of a lesson as a second witness: a note that chord and line accuse, and the words call otherwise.

The note is the cause then, and the finding about it is kept. It takes the words in as a further place, is as
severe as the severer of the two, and an error where a repair that was tried makes the words true. A note that
its author lets stand accuses nobody, and the words have a finding of their own. Of two sentences that say
the same of one note the first is told, and the note is the likelier slip.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from lickwright.checks.claims.claim import Differs, Held
from lickwright.checks.claims.ledger import Judged, judge_again
from lickwright.checks.stets import covers
from lickwright.checks.subject import Subject
from lickwright.checks.suppression import NOTES
from lickwright.findings import Finding, Label, Severity
from lickwright.model.fields import Stet

ACCUSING = frozenset(NOTES.split())
"""The rules that judge a note by its chord and its line."""
SAYING = frozenset(
    f"prose/{kind}" for kind in ("pitch", "degree", "bend-target", "boundary", "interval", "string", "fret")
)
"""The rules about words that say which note it is, or where it lies."""


@dataclass(frozen=True, slots=True)
class Words:
    """What the words of the lessons say of one piece, and the notes are not.

    Attributes:
        differing: Claims that do not hold.
        stets: The author's lines in the block of the piece.
        holding: Claims that hold.
    """

    differing: tuple[Judged, ...] = ()
    stets: tuple[Stet, ...] = ()
    holding: tuple[Judged, ...] = ()

    @classmethod
    def of(cls, name: str, judged: Iterable[Judged], stets: Iterable[Stet]) -> Words:
        """Return those that speak of a piece, by its name."""
        mine = [one for one in judged if one.claim.link.target == name]
        return cls(
            tuple(o for o in mine if isinstance(o.verdict, Differs) and f"prose/{o.claim.kind}" in SAYING),
            tuple(stets),
            tuple(o for o in mine if isinstance(o.verdict, Held)),
        )

    def stands(self, finding: Finding) -> bool:
        """Whether the author lets it stand."""
        return any(covers(stet, finding) for stet in self.stets)

    def confirmed(self, finding: Finding, tried: Subject) -> tuple[Label, ...]:
        """Return the words that a repair makes true, each as a further place of the finding.

        Args:
            finding: About one note.
            tried: The piece with another note in its place.
        """
        if finding.rule not in ACCUSING or self.stands(finding):
            return ()
        return tuple(_label(o) for o in self.differing if isinstance(judge_again(o, tried), Held))


def raise_certainty(finding: Finding, words: Sequence[Label]) -> Finding:
    """Return a finding about a note that words confirm: an error, the words a further place of it."""
    said = " and ".join(f"“{label.span.text}”" for label in words)
    true = "are true then" if len(words) > 1 else "is true then"
    help_ = f"Mend the note: {said} in the words {true}; if it is meant, write a stet, and mend the words"
    return replace(finding, severity=Severity.ERROR, labels=(*finding.labels, *words), help=help_)


def take_in(
    findings: Iterable[Finding], words: Words, repeated: Iterable[Finding] = ()
) -> tuple[Finding, ...]:
    """Return the findings of a piece, words that one about their note accounts for left out.

    Args:
        findings: Of the piece.
        words: What the lessons say of it, and its notes are not.
        repeated: Found in it, and told where its notes come from: a lick of the chorus, the base.
    """
    elsewhere = {address: f.severity for address, f in _accusing(repeated, words).items()}
    given = [*_once(findings, words)]
    accusing = _accusing(given, words)
    told = {(label.span.source.path, label.span.start) for f in accusing.values() for label in f.labels}
    kept: list[Finding] = []
    grown: dict[str, Finding] = {}
    for finding in given:
        if finding.rule not in SAYING or words.stands(finding):
            kept.append(finding)
        elif elsewhere.get(finding.address, Severity.NOTE) >= finding.severity > Severity.NOTE:
            continue
        elif (finding.span.source.path, finding.span.start) not in told:
            if (of := grown.get(finding.address) or accusing.get(finding.address)) is None:
                kept.append(finding)
            else:
                grown[finding.address] = _with_words(of, finding)
    return tuple(grown.get(f.address, f) if f is accusing.get(f.address) else f for f in kept)


def _accusing(findings: Iterable[Finding], words: Words) -> dict[str, Finding]:
    """The severest finding about each note, by its address."""
    about = [f for f in findings if f.rule in ACCUSING and f.address and not words.stands(f)]
    return {f.address: f for f in sorted(about, key=lambda f: f.severity)}


def _with_words(of: Finding, words: Finding) -> Finding:
    """A finding about a note together with words that no repair tried makes true."""
    help_ = f"{of.help}; {words.message}".removeprefix("; ")
    label = Label(words.span, "what the words say")
    severity = max(of.severity, words.severity)
    return replace(of, severity=severity, labels=(*of.labels, label), help=help_)


def _label(one: Judged) -> Label:
    term = one.verdict.term if isinstance(one.verdict, Differs) else None
    return Label(one.claim.span(term), "what the words say")


def _once(findings: Iterable[Finding], words: Words) -> Iterable[Finding]:
    """Words that say the same of one note are told where they stand first."""
    given = list(findings)
    alike: dict[tuple[str, str], list[Finding]] = {}
    for finding in given:
        if finding.rule in SAYING and finding.address and not words.stands(finding):
            alike.setdefault((finding.address, finding.message), []).append(finding)
    for finding in given:
        same = alike.get((finding.address, finding.message), [finding])
        if len(same) == 1 or finding.rule not in SAYING:
            yield finding
        elif finding is same[0]:
            labels = tuple(Label(other.span, "said here, too") for other in same[1:])
            help_ = f"The words say so {len(same)} times: mend the note first; or else {_small(finding.help)}"
            yield replace(
                finding,
                severity=max(other.severity for other in same),
                labels=(*finding.labels, *labels),
                help=help_,
            )


def _small(text: str) -> str:
    return f"{text[:1].lower()}{text[1:]}"
