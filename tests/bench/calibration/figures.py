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
ALARMS = (Severity.ERROR.word, Severity.QUERY.word)
"""Severities that ask something of the author: on correct music a false alarm, whichever rule tells it."""
Asked = tuple[str, int, int]


@dataclass
class Figures:
    """Of one group in one style.

    Attributes:
        notes: Judged, that is over a chord.
        asked: Notes that the roles ask about, by tier and all before it. ``with_asked``: works.
        planted, found: Slips by kind; found by kind and tier. ``witnessed``: renamed ones found by names.
        rules: Findings of all rules on the music as it is, by severity and rule. ``alarmed``: works with a
            false alarm.
        seconds: Of CPU for the roles.
    """

    group: str
    style: str
    works: int = 0
    notes: int = 0
    asked: Counter[int] = field(default_factory=Counter)
    with_asked: Counter[int] = field(default_factory=Counter)
    planted: Counter[str] = field(default_factory=Counter)
    found: Counter[tuple[str, int]] = field(default_factory=Counter)
    renamed: int = 0
    witnessed: int = 0
    rules: Counter[tuple[str, str]] = field(default_factory=Counter)
    alarmed: int = 0
    seconds: float = 0.0

    @property
    def false_alarms(self) -> dict[str, int]:
        """Errors and queries on the music as it is, by rule, the most first."""
        counted: Counter[str] = Counter()
        for (word, rule), number in self.rules.items():
            if word in ALARMS:
                counted[rule] += number
        return dict(counted.most_common())


def interval(found: int, of: int) -> tuple[float, float]:
    """Wilson's 95 % interval of a share."""
    if not of:
        return 0.0, 1.0
    z = 1.96
    share = found / of
    middle = (share + z * z / (2 * of)) / (1 + z * z / of)
    half = z * sqrt(share * (1 - share) / of + z * z / (4 * of * of)) / (1 + z * z / of)
    return max(0.0, middle - half), min(1.0, middle + half)


def ask(subject: Subject) -> dict[Asked, int]:
    """Return the notes that the roles ask about, with the first tier that does."""
    tied = {
        (written.sound.address, written.index) for written in subject.tones if written.tone.tied
    }  # reported where it is struck
    found: dict[Asked, int] = {}
    for role in subject.roles:
        if role.address.bar in subject.outside or (role.address, role.tone) in tied:
            continue
        if role.tier is not None:
            found[str(role.address), role.tone, role.turn] = role.tier
    return found


def measure(works: Iterable[Work], group: str, style: str, slips: int) -> Figures:
    """Count false alarms, and what is found of the slips planted on ``slips`` notes of each work."""
    figures = Figures(group, style)
    for work in works:
        subject = in_style(work.piece, style)
        start = time.process_time()
        before = ask(subject)
        figures.seconds += time.process_time() - start
        figures.works += 1
        figures.notes += sum(role.chord != NO_CHORD for role in subject.roles)
        for tier in TIERS:
            number = sum(found <= tier for found in before.values())
            figures.asked[tier] += number
            figures.with_asked[tier] += number > 0
        named = replace(subject, piece=name_tones(subject.piece))
        told = Counter((f.severity.word, f.rule) for f in keep_causes((*work.findings, *named.found)))
        figures.rules.update(told)
        figures.alarmed += any(word in ALARMS for word, _ in told)
        for slip in plant(named.piece, work.name, slips):
            _count(figures, slip, before)
    return figures


def _count(figures: Figures, slip: Slip, before: dict[Asked, int]) -> None:
    subject = Subject(slip.piece, LIMITS)
    fresh = [tier for alarm, tier in ask(subject).items() if before.get(alarm, 9) > tier]
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
        for name in ("works", "notes", "renamed", "witnessed", "alarmed", "seconds"):
            setattr(total, name, getattr(total, name) + getattr(one, name))
        for name in ("asked", "with_asked", "planted", "found", "rules"):
            getattr(total, name).update(getattr(one, name))
    return total


HEAD = (
    "| material, style | notes (works) | tier | asked about | in 1,000 | works with one | "
    + " | ".join(f"{kind}, % found" for kind in KINDS)
    + " |\n|"
    + " --- |" * 3
    + " ---: |" * (3 + len(KINDS))
)


def report(figures: Figures) -> list[str]:
    """Return what the roles find as rows of a table, one a tier; in brackets 95 % intervals."""
    rows = []
    for tier in TIERS:
        number = figures.asked[tier]
        per = _per_thousand(number, figures.notes)
        cells = [f"{figures.group}, {figures.style}", f"{figures.notes} ({figures.works})"]
        cells += [str(tier), str(number), per, str(figures.with_asked[tier])]
        for kind in KINDS:
            found, planted = figures.found[kind, tier], figures.planted[kind]
            low, high = (100 * bound for bound in interval(found, planted))
            cells.append(f"{100 * found / max(1, planted):.0f} ({low:.0f}-{high:.0f})")
        rows.append(f"| {' | '.join(cells)} |")
    return rows


ALARMS_HEAD = (
    "| material, style | notes (works) | false alarms | in 1,000 | works with one | by rule |\n|"
    " --- | --- | ---: | ---: | ---: | --- |"
)


def report_alarms(figures: Figures) -> str:
    """Return the false alarms as a row of a table: errors and queries of all rules on the music as it is."""
    found = figures.false_alarms
    number = sum(found.values())
    cells = [f"{figures.group}, {figures.style}", f"{figures.notes} ({figures.works})", str(number)]
    cells += [_per_thousand(number, figures.notes), str(figures.alarmed)]
    cells.append(", ".join(f"{count} {rule}" for rule, count in found.items()))
    return f"| {' | '.join(cells)} |"


def _per_thousand(number: int, notes: int) -> str:
    low, high = (1000 * bound for bound in interval(number, notes))
    return f"{1000 * number / max(1, notes):.2f} ({low:.2f}-{high:.2f})"


def report_checks(figures: Figures) -> str:
    """Return in a line what the names row finds, and what all rules say to the correct music."""
    told = [f"{number} {rule} ({word})" for (word, rule), number in sorted(figures.rules.items())]
    return (
        f"{figures.group}, {figures.style}: {sum(figures.planted.values())} slips,"
        f" by the names row {figures.witnessed} of {figures.renamed};"
        f" all findings: {', '.join(told) or 'none'}"
    )
