"""The repair: what a note was most likely meant to be, tried before it is said.

A candidate is kept only if the rules, run again over the bars around it, no longer find the fault and find
no other; of those left the note that fits the chord best is offered first. Where no note mends, the entry of
a row may.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.candidates import list_candidates, list_frets_beside, list_named
from lickwright.checks.catalogue import rules
from lickwright.checks.confirmation import Words, raise_certainty
from lickwright.checks.row_repair import ROW_OF, mend_row
from lickwright.checks.subject import Subject
from lickwright.checks.trial import Place, Places, cut_around, list_places, put_tone, try_tone
from lickwright.checks.witnesses import top_pitch
from lickwright.checks.wording import degree_name, degree_of, note_name, say_pitch
from lickwright.findings import Edit, Finding, Fix, Label, Severity
from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone

FIT: dict[Role, int] = {Role.CHORD_TONE: 0, Role.TENSION: 1, Role.SCALE_TONE: 1}
"""How well a role speaks for a repair: the role it had, then these, then any other that explains."""
WITNESS = "witness/"
HANDS = "hands/"
"""Rules that ask where a note is taken, not which it is."""
MOST = 2
"""Repairs that are told."""
TRIED = 12
"""Findings of one piece, or one a bar, that repairs are tried for: where more is foreign, the cause is no
single fret."""
AROUND = (1, 4)
"""Bars on either side over which the rules run again: the fewest that show the fault."""
HAND = 5
"""Frets that the hand covers with a stretch."""
_NOTHING: Places = frozenset()


@dataclass(frozen=True, slots=True)
class Repair:
    """A candidate that mends: ``words`` say what it is, ``one fret higher is the third``.

    Attributes:
        confirmed: What the lesson says of the note, and what is true with this one.
        cleared: What else is found no more with it.
    """

    words: str
    text: str
    confirmed: tuple[Label, ...] = ()
    cleared: Places = frozenset()


def mend(subject: Subject, findings: Iterable[Finding], words: Words | None = None) -> tuple[Finding, ...]:
    """Return the findings of a piece, each about one note with its repair if there is one that works.

    A chorus gets none: its notes are its licks'. Findings that bring a fix are left as they are. A query that
    the repair of an error by the same rule clears is left out: the innocent note beside a slip.

    Args:
        subject: The piece.
        findings: Of it.
        words: What the lessons say of it that its notes are not: a repair that makes them true comes first.
    """
    told = tuple(findings)
    if subject.piece.kind != "lick" or not any(_asks(finding) for finding in told):
        return told
    most = max(TRIED, len(subject.piece.music.bars))
    asked = {id(finding) for finding in [f for f in told if _asks(f)][:most]}
    trial = Trial(subject, words or Words())
    mended = [_with_repair(trial, f) if id(f) in asked else (f, _NOTHING) for f in told]
    cleared = frozenset[Place]().union(
        *(_of_its_rule(f, c) for f, c in mended if f.severity is Severity.ERROR)
    )
    return tuple(f for f, _ in mended if f.severity is Severity.ERROR or (f.rule, f.address) not in cleared)


def _of_its_rule(finding: Finding, cleared: Places) -> Places:
    return frozenset(place for place in cleared if place[0] == finding.rule)


class Trial:
    """Over which bars repairs are tried: few of them show a fault, whatever the length of the piece."""

    def __init__(self, subject: Subject, words: Words) -> None:
        self.subject = subject
        self.words = words
        self._around: dict[tuple[int, int], Subject] = {}

    def confirmed(self, finding: Finding, sound: Sound, index: int, tone: Tone) -> tuple[Label, ...]:
        """Return the words of the lesson that another note makes true."""
        if not self.words.differing:
            return ()
        piece = put_tone(self.subject.piece, sound.address, index, tone)
        return self.words.confirmed(finding, Subject(piece, self.subject.limits, self.subject.base))

    def around(self, finding: Finding, address: Address) -> Subject | None:
        """Return the bars in which a finding is found again; None where it takes more of the piece."""
        for bars in AROUND if address in self.subject.by_address else ():
            cut = self._around.get((address.bar, bars))
            if cut is None:
                piece = cut_around(self.subject.piece, address.bar, bars)
                whole = piece is self.subject.piece
                cut = self.subject if whole else Subject(piece, self.subject.limits, self.subject.base)
                self._around[address.bar, bars] = cut
            if (finding.rule, finding.address) in list_places(cut):
                return cut
        return None


def _asks(finding: Finding) -> bool:
    rule = rules().get(finding.rule)
    asks = rule is not None and (rule.one_note or finding.rule in ROW_OF)
    return asks and finding.fix is None and bool(finding.address)


def _with_repair(trial: Trial, finding: Finding) -> tuple[Finding, Places]:
    """The finding with its repair, and what else the repair clears."""
    subject, address = trial.subject, Address.parse(finding.address)
    around = None if address is None else trial.around(finding, address)
    found = None if around is None else _locate(around, finding)
    if around is None or found is None:
        return finding, _NOTHING
    sound, index = found
    taken_over = subject.piece.of and sound.address not in subject.piece.changed  # stands in the base
    repairs = find_repairs(trial, around, finding, sound, index) if rules()[finding.rule].one_note else ()
    if not repairs:
        in_row = finding.rule in ROW_OF and not taken_over
        fix = mend_row(around, finding, sound, index) if in_row else finding.fix
        return replace(finding, fix=fix), _NOTHING
    best, tone = repairs[0], sound.tones[index]
    message, hint = finding.message, finding.help
    if not finding.rule.startswith(WITNESS):
        message = f"{message}; {best.words}"
    if len(repairs) > 1:
        hint = f"{hint}; {repairs[1].words}, too".removeprefix("; ")
    fix = None
    if finding.rule.startswith(WITNESS):  # the fix says what would be which note
        hint = f"{repairs[1].words}, too" if len(repairs) > 1 else ""
    if best.text and not taken_over:
        fix = Fix(f"{best.text}: {best.words}", (Edit(tone.span, best.text),))
    mended = replace(finding, message=message, help=hint, fix=fix)
    return raise_certainty(mended, best.confirmed) if best.confirmed else mended, best.cleared


def _locate(subject: Subject, finding: Finding) -> tuple[Sound, int] | None:
    """The tone a finding marks, itself or by its entry in a row."""
    address = Address.parse(finding.address)
    sound = None if address is None else subject.by_address.get(address)
    if sound is None:
        return None
    marked = [k for k, tone in enumerate(sound.tones) if tone.span == finding.span and _same(tone, finding)]
    if len(sound.tones) == 1 and finding.rule in ROW_OF:
        marked = [0]
    return (sound, marked[0]) if len(marked) == 1 else None


def _same(tone: Tone, finding: Finding) -> bool:
    span = finding.span
    return (tone.span.source.path, tone.span.start) == (span.source.path, span.start)


def find_repairs(
    trial: Trial, subject: Subject, finding: Finding, sound: Sound, index: int
) -> tuple[Repair, ...]:
    """Try every candidate for one note, and return at most two that mend, the best first.

    Args:
        trial: Of its piece.
        subject: The bars around it.
        finding: What is to be mended.
        sound: Where it is.
        index: Of the tone in it.
    """
    kept: list[tuple[tuple[bool, bool, int, int], Repair]] = []
    known = list_places(subject)
    key, target = subject.piece.music.key, (finding.rule, finding.address)
    before = _role(subject, sound.address, index)
    quarter = len(top_pitch(sound.tones[index])) > 1  # what lies between the half steps is no chord tone
    candidates = [*list_candidates(subject, sound, index, reached=finding.rule.startswith(HANDS))]
    if finding.rule == "witness/names":
        known_places = {(each.tone.string, each.tone.fret) for each in candidates}
        named = list_named(subject, sound, index)
        candidates += [each for each in named if (each.tone.string, each.tone.fret) not in known_places]
    for rank, candidate in enumerate(candidates):
        tried, places = try_tone(subject, sound.address, index, candidate.tone)
        role = _role(tried, sound.address, index)
        if target in places or places - known or role is None or not role.role.explained:
            continue
        if before is not None and not finding.rule.startswith(WITNESS) and _wider(subject, before, role):
            continue
        if finding.rule.startswith(WITNESS) and not quarter and _fits_better(before, role):
            continue  # the row has slipped, not the hand
        if finding.rule == "witness/names":
            name = note_name(role.pitch, key, role.chord).removesuffix(" natural")
            said = say_pitch(name, top_pitch(candidate.tone))
        else:
            said = f"the {degree_name(degree_of(role.pitch, role.chord, key))}"
        as_before = before is not None and before.role is role.role
        fit, far = 0 if as_before else FIT.get(role.role, 2), _is_far(subject, sound, candidate.tone)
        true = trial.confirmed(finding, sound, index, candidate.tone)
        repair = Repair(f"{candidate.how} is {said}", candidate.text, true, known - places - {target})
        kept.append(((not true, far, fit, rank), repair))
    return tuple(repair for _, repair in sorted(kept, key=lambda each: each[0])[:MOST])


def _role(subject: Subject, address: Address, index: int) -> RoleOf | None:
    """The role of a tone; of a bend, that of its last pitch but for a release."""
    turns = [role for role in subject.roles if role.address == address and role.tone == index]
    return max(turns, key=lambda role: role.pitch) if turns else None


def _wider(subject: Subject, before: RoleOf, after: RoleOf) -> bool:
    """Whether the line leaps more than a half step further than it did, or turns at a neighbour no more."""
    near: list[int] = []
    for line in subject.analysis.lines.melodic:
        for number, note in enumerate(line):
            if note.key == (before.address, before.tone, before.turn):
                near = [n.pitch for n in line[max(0, number - 1) : number + 2] if n is not note]
                break
    if before.role is Role.NEIGHBOUR and {*near} == {after.pitch}:
        return True
    return sum(abs(after.pitch - p) for p in near) > sum(abs(before.pitch - p) for p in near) + 1


def _fits_better(before: RoleOf | None, after: RoleOf) -> bool:
    """Whether a note sits in its chord as it is, and would not where the row wants it."""
    return before is not None and before.role is Role.CHORD_TONE and after.role is not Role.CHORD_TONE


def _is_far(subject: Subject, sound: Sound, tone: Tone) -> bool:
    """Whether a fret lies more than a hand away from those before and after it."""
    fret, near = tone.fret, [f for f in list_frets_beside(subject, sound) if f]
    return bool(fret) and bool(near) and min(abs((fret or 0) - other) for other in near) > HAND
