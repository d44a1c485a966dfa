"""What is counted on a group of works in one style, and how sure the shares are."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from math import sqrt

from calibration.slips import KINDS, Slip, plant
from calibration.work import LIMITS, Work, in_style
from lickwright.checks.catalogue import rules
from lickwright.checks.subject import Subject
from lickwright.checks.suppression import keep_causes
from lickwright.checks.witnesses import top_pitch
from lickwright.findings import Severity
from lickwright.model.music import Piece
from lickwright.theory.chord import NO_CHORD

TIERS = (0, 1, 2)
"""0: notes that nothing explains; 1: chromatic and disconnected too; 2: loose too."""
SHARPS = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
Alarm = tuple[str, int, int]


@dataclass
class Figures:
    """Of one group in one style.

    Attributes:
        notes: Judged, that is over a chord.
        alarms: Notes reported, by tier and all before it. ``with_alarm``: works.
        planted, found: Slips by kind; found by kind and tier. ``witnessed``: renamed ones found by names.
        rules: Findings of all rules on the music as it is, by severity and rule.
        seconds: Of CPU for the roles.
    """

    group: str
    style: str
    works: int = 0
    notes: int = 0
    alarms: Counter[int] = field(default_factory=Counter)
    with_alarm: Counter[int] = field(default_factory=Counter)
    planted: Counter[str] = field(default_factory=Counter)
    found: Counter[tuple[str, int]] = field(default_factory=Counter)
    renamed: int = 0
    witnessed: int = 0
    rules: Counter[tuple[str, str]] = field(default_factory=Counter)
    seconds: float = 0.0


def interval(found: int, of: int) -> tuple[float, float]:
    """Wilson's 95 % interval of a share."""
    if not of:
        return 0.0, 1.0
    z = 1.96
    share = found / of
    middle = (share + z * z / (2 * of)) / (1 + z * z / of)
    half = z * sqrt(share * (1 - share) / of + z * z / (4 * of * of)) / (1 + z * z / of)
    return max(0.0, middle - half), min(1.0, middle + half)


def alarms(subject: Subject) -> dict[Alarm, int]:
    """The notes that are reported, with the first tier that reports each."""
    tied = {
        (written.sound.address, written.index) for written in subject.tones if written.tone.tied
    }  # reported where it is struck
    found: dict[Alarm, int] = {}
    for role in subject.roles:
        if role.address.bar in subject.outside or (role.address, role.tone) in tied:
            continue
        tier = getattr(role, "tier", 0 if not role.role.explained else 1 if role.disconnected else None)
        if tier is None:
            continue
        found[str(role.address), role.tone, role.turn] = tier
    return found


def measure(works: Iterable[Work], group: str, style: str, slips: int) -> Figures:
    """Count false alarms, and what is found of the slips planted on ``slips`` notes of each work."""
    figures = Figures(group, style)
    for work in works:
        subject = in_style(work.piece, style)
        start = time.process_time()
        before = alarms(subject)
        figures.seconds += time.process_time() - start
        figures.works += 1
        figures.notes += sum(role.chord != NO_CHORD for role in subject.roles)
        for tier in TIERS:
            number = sum(found <= tier for found in before.values())
            figures.alarms[tier] += number
            figures.with_alarm[tier] += number > 0
        named = replace(subject, piece=name_tones(subject.piece))
        for finding in keep_causes((*work.findings, *named.found)):
            figures.rules[finding.severity.word, finding.rule] += 1
        for slip in plant(named.piece, work.name, slips):
            _count(figures, slip, before)
    return figures


def _count(figures: Figures, slip: Slip, before: dict[Alarm, int]) -> None:
    subject = Subject(slip.piece, LIMITS)
    fresh = [tier for alarm, tier in alarms(subject).items() if before.get(alarm, 9) > tier]
    figures.planted[slip.kind] += 1
    for tier in TIERS:
        figures.found[slip.kind, tier] += any(found <= tier for found in fresh)
    if slip.renamed:
        run = rules()["witness/names"].run
        assert run is not None
        figures.renamed += 1
        figures.witnessed += any(
            f.severity is Severity.ERROR and f.address == str(slip.address) for f in run(subject)
        )


def name_tones(piece: Piece) -> Piece:
    """Put the true name of every note into its witness row."""
    music = piece.music
    key = music.key
    bars = []
    for bar in music.bars:
        lines = []
        for line in bar.lines:
            sounds = []
            for sound in line.sounds:
                chord = {n.semitone: str(n) for n in bar.chord_at(sound.onset).pitch_classes}
                tones = []
                for tone in sound.tones:
                    tops = top_pitch(tone)
                    if not tops:
                        tones.append(replace(tone, name=None))
                        continue
                    top = tops[-1] % 12
                    name = chord.get(top) or str(key.spelling(top) or SHARPS[top])
                    tones.append(replace(tone, name=name))
                sounds.append(replace(sound, tones=tuple(tones)))
            lines.append(replace(line, sounds=tuple(sounds)))
        bars.append(replace(bar, upper=lines[0], lower=lines[1] if len(lines) > 1 else None))
    return replace(piece, music=replace(music, bars=tuple(bars)))


def add(many: Iterable[Figures], group: str, style: str) -> Figures:
    """Add up the figures of several groups."""
    total = Figures(group, style)
    for one in many:
        for name in ("works", "notes", "renamed", "witnessed", "seconds"):
            setattr(total, name, getattr(total, name) + getattr(one, name))
        for name in ("alarms", "with_alarm", "planted", "found", "rules"):
            getattr(total, name).update(getattr(one, name))
    return total


HEAD = (
    "| material, style | notes (works) | tier | alarms | in 1,000 | works with one | "
    + " | ".join(f"{kind}, % found" for kind in KINDS)
    + " |\n|"
    + " --- |" * 3
    + " ---: |" * (3 + len(KINDS))
)


def report(figures: Figures) -> list[str]:
    """Return the figures as rows of a table, one a tier; in brackets 95 % intervals."""
    rows = []
    for tier in TIERS:
        number = figures.alarms[tier]
        low, high = (1000 * bound for bound in interval(number, figures.notes))
        per = f"{1000 * number / max(1, figures.notes):.2f} ({low:.2f}-{high:.2f})"
        cells = [f"{figures.group}, {figures.style}", f"{figures.notes} ({figures.works})"]
        cells += [str(tier), str(number), per, str(figures.with_alarm[tier])]
        for kind in KINDS:
            found, planted = figures.found[kind, tier], figures.planted[kind]
            low, high = (100 * bound for bound in interval(found, planted))
            cells.append(f"{100 * found / max(1, planted):.0f} ({low:.0f}-{high:.0f})")
        rows.append(f"| {' | '.join(cells)} |")
    return rows


def report_checks(figures: Figures) -> str:
    """Return in a line what the names row finds, and what all rules say to the correct music."""
    errors = sum(number for (word, _), number in figures.rules.items() if word == "error")
    told = [f"{number} {rule} ({word})" for (word, rule), number in sorted(figures.rules.items())]
    return (
        f"{figures.group}, {figures.style}: {sum(figures.planted.values())} slips,"
        f" by the names row {figures.witnessed} of {figures.renamed};"
        f" {errors} errors of {figures.notes} notes, all findings: {', '.join(told) or 'none'}"
    )
