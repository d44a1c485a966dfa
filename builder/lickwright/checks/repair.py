"""The repair: what a note was most likely meant to be, tried before it is said.

Tried are one and two frets up and down, the digits of a fret or string and fret exchanged, the same
fret on the strings beside, an octave, and the same note on another string; of a bend, its target a half
step either way. A candidate is kept only if the rules, run again over the bars around it, no longer find
the fault and find no other; of those left the note that fits the chord best is offered first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from statistics import median

from lickwright.analysis.role import Role, RoleOf
from lickwright.checks.catalogue import rules
from lickwright.checks.row_repair import ROW_OF, mend_row
from lickwright.checks.subject import Subject
from lickwright.checks.trial import cut_around, list_places, try_tone
from lickwright.checks.wording import count_word, degree_name, degree_of, note_name
from lickwright.findings import Edit, Finding, Fix
from lickwright.instrument.fingering import place
from lickwright.model.address import Address
from lickwright.model.music import Sound, Tone
from lickwright.model.strike import Fretted, Hammered, Tapped
from lickwright.theory.pitch import PitchClass

FIT: dict[Role, int] = {Role.CHORD_TONE: 0, Role.TENSION: 1, Role.SCALE_TONE: 1}
"""How well a role speaks for a repair; any other explained one comes after these."""
WITNESS = "witness/"
MOST = 2
"""Repairs that are told."""
TRIED = 12
"""Findings of one piece, or one a bar, that repairs are tried for: where more is foreign, the cause is no
single fret."""
AROUND = (1, 4)
"""Bars on either side over which the rules run again: the fewest that show the fault."""
HAND = 5
"""Frets that the hand covers with a stretch."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A note to be tried in the place of another.

    Attributes:
        tone: The note. ``how``: ``one fret higher``.
        text: As an author writes it, ``4:4~``; empty where the author must see to it.
    """

    tone: Tone
    how: str
    text: str


@dataclass(frozen=True, slots=True)
class Repair:
    """A candidate that mends: ``words`` say what it is, ``one fret higher is the third``."""

    words: str
    text: str


def mend(subject: Subject, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings of a piece, each about one note with its repair if there is one that works.

    A chorus gets none: its notes are its licks'. Findings that bring a fix are left as they are.
    """
    told = tuple(findings)
    if subject.piece.kind != "lick" or not any(_asks(finding) for finding in told):
        return told
    most = max(TRIED, len(subject.piece.music.bars))
    asked = {id(finding) for finding in [f for f in told if _asks(f)][:most]}
    trial = Trial(subject)
    return tuple(_with_repair(trial, f) if id(f) in asked else f for f in told)


class Trial:
    """Over which bars repairs are tried: few of them show a fault, whatever the length of the piece."""

    def __init__(self, subject: Subject) -> None:
        self.subject = subject
        self._around: dict[tuple[int, int], Subject] = {}

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


def _with_repair(trial: Trial, finding: Finding) -> Finding:
    subject, address = trial.subject, Address.parse(finding.address)
    around = None if address is None else trial.around(finding, address)
    found = None if around is None else _locate(around, finding)
    if around is None or found is None:
        return finding
    sound, index = found
    taken_over = subject.piece.of and sound.address not in subject.piece.changed  # stands in the base
    repairs = find_repairs(around, finding, sound, index) if rules()[finding.rule].one_note else ()
    if not repairs:
        in_row = finding.rule in ROW_OF and not taken_over
        return replace(finding, fix=mend_row(around, finding, sound, index)) if in_row else finding
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
    return replace(finding, message=message, help=hint, fix=fix)


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


def find_repairs(subject: Subject, finding: Finding, sound: Sound, index: int) -> tuple[Repair, ...]:
    """Try every candidate for one note, and return at most two that mend, the best first.

    Args:
        subject: The bars around it.
        finding: What is to be mended.
        sound: Where it is.
        index: Of the tone in it.
    """
    kept: list[tuple[tuple[bool, int, int], Repair]] = []
    known = list_places(subject)
    key, target = subject.piece.music.key, (finding.rule, finding.address)
    before = _role(subject, sound.address, index)
    candidates = [*list_candidates(subject, sound, index)]
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
        if finding.rule.startswith(WITNESS) and _fits_better(before, role):
            continue  # the row has slipped, not the hand
        if finding.rule == "witness/names":
            said = note_name(role.pitch, key, role.chord).removesuffix(" natural")
        else:
            said = f"the {degree_name(degree_of(role.pitch, role.chord, key))}"
        fit, far = FIT.get(role.role, 2), _is_far(subject, sound, candidate.tone)
        kept.append(((far, fit, rank), Repair(f"{candidate.how} is {said}", candidate.text)))
    return tuple(repair for _, repair in sorted(kept, key=lambda each: each[0])[:MOST])


def _role(subject: Subject, address: Address, index: int) -> RoleOf | None:
    """The role of a tone; of a bend, that of its last pitch but for a release."""
    turns = [role for role in subject.roles if role.address == address and role.tone == index]
    return max(turns, key=lambda role: role.pitch) if turns else None


def _wider(subject: Subject, before: RoleOf, after: RoleOf) -> bool:
    """Whether the line leaps further than it did, by more than a half step."""
    near: list[int] = []
    for line in subject.analysis.lines.melodic:
        for number, note in enumerate(line):
            if note.key == (before.address, before.tone, before.turn):
                near = [n.pitch for n in line[max(0, number - 1) : number + 2] if n is not note]
                break
    return sum(abs(after.pitch - p) for p in near) > sum(abs(before.pitch - p) for p in near) + 1


def _fits_better(before: RoleOf | None, after: RoleOf) -> bool:
    """Whether a note sits in its chord as it is, and would not where the row wants it."""
    return before is not None and before.role is Role.CHORD_TONE and after.role is not Role.CHORD_TONE


def _is_far(subject: Subject, sound: Sound, tone: Tone) -> bool:
    """Whether a fret lies more than a hand away from those before and after it."""
    fret, near = tone.fret, [f for f in _frets_beside(subject, sound) if f]
    return bool(fret) and bool(near) and min(abs((fret or 0) - other) for other in near) > HAND


def _frets_beside(subject: Subject, sound: Sound) -> list[int]:
    """Frets of the sounds before and after, in the same voice."""
    voice = [w.sound for w in subject.tones if w.sound.address.lower == sound.address.lower]
    at = next((k for k, other in enumerate(voice) if other is sound), 0)
    beside = [other for other in voice[max(0, at - 3) : at + 4] if other is not sound]
    return [tone.fret for other in beside for tone in other.tones if tone.fret is not None]


def list_candidates(subject: Subject, sound: Sound, index: int) -> Iterator[Candidate]:
    """Yield what is worth trying for a tone, the likeliest slip first."""
    tone = sound.tones[index]
    if tone.tied or tone.fret is None or not isinstance(tone.head, Fretted | Tapped | Hammered):
        return
    if tone.bends:
        yield from _bent(tone)
        return
    used = {other.string for k, other in enumerate(sound.tones) if k != index}
    partners = _partners(subject, tone)
    for string, fret, how in (*_places(tone.string, tone.fret), *_same_note(subject, sound, tone)):
        if string in used or fret in partners or (partners and string != tone.string):
            continue
        guitar = subject.piece.music.guitar
        if guitar.has_string(string) and guitar.has_fret(fret):
            yield Candidate(_put(subject, tone, string, fret), how, _text(tone, string, fret))


def list_named(subject: Subject, sound: Sound, index: int) -> Iterator[Candidate]:
    """Yield where the note that the names row gives lies under the hand, on other strings too."""
    tone, guitar = sound.tones[index], subject.piece.music.guitar
    said = PitchClass.parse(tone.name or "")
    beside = [fret for fret in _frets_beside(subject, sound) if fret]
    if said is None or not beside or tone.tied or not isinstance(tone.head, Fretted) or tone.bends:
        return
    used = {other.string for k, other in enumerate(sound.tones) if k != index}
    if _partners(subject, tone):
        return
    heard = int(tone.path[0])
    for string in sorted(range(1, guitar.strings + 1), key=lambda s: abs(s - tone.string)):
        for fret in range(max(1, min(beside) - 1), max(beside) + 2):
            midi = guitar.midi(string, fret)
            if string in used or midi % 12 != said.semitone or abs(midi - heard) > 7:
                continue
            if guitar.has_fret(fret) and (string, fret) != (tone.string, tone.fret):
                how = f"string {string}, fret {fret},"
                yield Candidate(_put(subject, tone, string, fret), how, _text(tone, string, fret))


def _places(string: int, fret: int) -> Iterator[tuple[int, int, str]]:
    for frets in (1, -1, 2, -2):
        plural = "s" if abs(frets) > 1 else ""
        yield (
            string,
            fret + frets,
            f"{count_word(abs(frets))} fret{plural} {'higher' if frets > 0 else 'lower'}",
        )
    if fret > 9 and fret % 10 != fret // 10:
        yield string, fret % 10, f"fret {fret % 10}, a digit fewer,"
    if fret > 9 and (turned := int(str(fret)[::-1])) != fret:
        yield string, turned, f"fret {turned}, its digits exchanged,"
    if fret != string:
        yield fret, string, f"string {fret}, fret {string}, the two exchanged,"
    for beside in (string - 1, string + 1):
        yield beside, fret, f"the same fret on string {beside}"
    for octave in (12, -12):
        yield string, fret + octave, f"twelve frets {'higher' if octave > 0 else 'lower'}"


def _same_note(subject: Subject, sound: Sound, tone: Tone) -> Iterator[tuple[int, int, str]]:
    """Where else the note lies, nearest to the notes around it first."""
    places = place(int(tone.path[0]), subject.piece.music.guitar) if tone.path else ()
    near = [fret for fret in _frets_beside(subject, sound) if fret]
    for string, fret in sorted(places, key=lambda each: abs(each[1] - median(near or [each[1]]))):
        if fret and string != tone.string:
            yield string, fret, f"the same note on string {string}"


def _bent(tone: Tone) -> Iterator[Candidate]:
    """The highest target of a bend a half step further or less far."""
    top = max(bend.to for bend in tone.bends)
    for steps in (1, -1):
        bends = tuple(replace(b, to=b.to + steps) if b.to == top else b for b in tone.bends)
        if tone.fret is None or any(bend.to < tone.fret for bend in bends):
            continue
        before = len(tone.path) - len(tone.bends)  # the fretted pitch, but where it is bent beforehand
        moved = (p + steps if b.to == top else p for b, p in zip(tone.bends, tone.path[before:], strict=True))
        how = f"bent one half step {'higher' if steps > 0 else 'lower'}"
        path = (*tone.path[:before], *moved)
        yield Candidate(replace(tone, bends=bends, path=path), how, _bent_text(tone, top, steps))


def _bent_text(tone: Tone, top: Fraction, steps: int) -> str:
    """The note as written, its highest target moved; nothing where it stands otherwise in the text."""
    text, at = tone.span.text, 0
    for bend in tone.bends:
        typed = f"{bend.kind.value}{float(bend.to):g}"
        at = text.find(typed, at)
        if at < 0:
            return ""
        put = f"{bend.kind.value}{float(bend.to + steps):g}" if bend.to == top else typed
        text, at = text[:at] + put + text[at + len(typed) :], at + len(put)
    return text


def _put(subject: Subject, tone: Tone, string: int, fret: int) -> Tone:
    guitar = subject.piece.music.guitar
    pitch = type(tone.path[0])(guitar.midi(string, fret))
    head = replace(tone.head, fret=fret) if isinstance(tone.head, Fretted | Tapped | Hammered) else tone.head
    return replace(tone, string=string, fret=fret, head=head, path=(pitch,))


def _text(tone: Tone, string: int, fret: int) -> str:
    """The note as written, string and fret exchanged; nothing where it stands otherwise in the text."""
    letter = {Tapped: "t", Hammered: "h"}.get(type(tone.head), "")
    start = f"{tone.string}:{letter}{tone.fret}"
    rest = tone.span.text.removeprefix(start)
    if not tone.span.text.startswith(start) or rest[:1].isdigit():
        return ""
    return f"{string}:{letter}{fret}{rest}"


def _partners(subject: Subject, tone: Tone) -> frozenset[int | None]:
    """Frets that the tone is led from or leads to without a stroke: it stays on the string, and moves."""
    before = {lead.before.fret for lead in subject.leads if lead.after is tone}
    return frozenset(before | {lead.after.fret for lead in subject.leads if lead.before is tone})
