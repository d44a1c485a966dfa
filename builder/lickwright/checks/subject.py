"""What a rule is given: one piece with all that several rules ask of it, worked out once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from lickwright.analysis.classifier import Analysis, analyse, list_roles
from lickwright.analysis.difficulty import Difficulty, measure
from lickwright.analysis.naming import spelled
from lickwright.analysis.role import RoleOf
from lickwright.analysis.techniques import Use, list_techniques
from lickwright.checks.catalogue import rules
from lickwright.checks.misspelled import Misspelled, list_misspelled
from lickwright.checks.onsets import Onset, list_onsets, seconds_a_quarter
from lickwright.checks.rule import Rule
from lickwright.checks.strings import Held, Lead, list_held, list_leads
from lickwright.checks.witness_slips import Bar, Row, Slip, find_slips
from lickwright.checks.wording import note_name, say_name
from lickwright.findings import Finding, Fix, Label, Severity
from lickwright.model.address import Address
from lickwright.model.fields import ClaimKind
from lickwright.model.music import Line, MusicBar, Piece, Sound, Tone
from lickwright.text import Span
from lickwright.theory.chord import ChordSymbol
from lickwright.theory.pitch import Pitch


@dataclass(frozen=True, slots=True)
class Written:
    """A tone where it is written.

    Attributes:
        bar: Its bar. ``line``: its voice there. ``sound``: its sound.
        index: Of the tone in the sound.
    """

    bar: MusicBar
    line: Line
    sound: Sound
    tone: Tone
    index: int

    def entry(self, row: str) -> Span | None:
        """Where a row speaks of the sound, if it does."""
        return next((span for kind, span in self.sound.entries if kind == row), None)

    def label(self, row: str) -> tuple[Label, ...]:
        """The entry of a row, as a further place of a finding."""
        span = self.entry(row)
        return () if span is None else (Label(span, f"the {row} row"),)

    @property
    def voice(self) -> Bar:
        """Number of its bar, and whether it is the lower voice."""
        return self.bar.number, self.sound.address.lower

    @property
    def chord(self) -> ChordSymbol:
        """The chord in force."""
        return self.bar.chord_at(self.sound.onset)


@dataclass
class Subject:
    """A piece under proof.

    Attributes:
        piece: Resolved.
        limits: Threshold by name, the course's own put in.
        base: The piece it varies as its own proof saw it, or None.
    """

    piece: Piece
    limits: Mapping[str, float]
    base: Subject | None = None

    @cached_property
    def found(self) -> tuple[Finding, ...]:
        """What every rule finds in the piece, before one finding explains another."""
        runs = [rule.run for rule in rules().values() if rule.run is not None]
        return tuple(finding for run in runs for finding in run(self))

    @cached_property
    def tones(self) -> tuple[Written, ...]:
        """Every tone in the order written, the upper voice of a bar before its lower."""
        return tuple(self._tones())

    def _tones(self) -> Iterator[Written]:
        for bar in self.piece.music.bars:
            for line in bar.lines:
                for sound in line.sounds:
                    for index, tone in enumerate(sound.tones):
                        yield Written(bar, line, sound, tone, index)

    @cached_property
    def misspelled(self) -> tuple[Misspelled, ...]:
        """What the names rows spell otherwise."""
        return list_misspelled(self)

    def slips(self, row: Row) -> Mapping[Bar, Slip]:
        """The bars in which a row of the second witness has slipped as a whole."""
        if row not in self._slips:
            self._slips[row] = find_slips(self.piece, row)
        return self._slips[row]

    @cached_property
    def _slips(self) -> dict[Row, Mapping[Bar, Slip]]:
        return {}

    @cached_property
    def spelled(self) -> Mapping[tuple[Address, int], tuple[Pitch, ...]]:
        """What the staff calls every tone: by address and tone, from 1."""
        return spelled(self.piece.music)

    def name_of(self, role: RoleOf) -> str:
        """What a note is called: as the staff spells it where that is its pitch, else by its chord."""
        return self.name_at(role.address, role.tone, role.pitch, role.chord)

    def name_at(self, address: Address, tone: int, midi: int, chord: ChordSymbol) -> str:
        """What a pitch of a tone is called; ``tone`` counts from 0 in its sound."""
        for pitch in self.spelled.get((address, tone + 1), ()):
            if pitch.midi == midi:
                return say_name(pitch.name)
        return note_name(midi, self.piece.music.key, chord)

    @cached_property
    def leads(self) -> tuple[Lead, ...]:
        """Every hammer-on, pull-off and slide."""
        return list_leads(self.piece.music)

    @cached_property
    def held(self) -> tuple[Held, ...]:
        """Every pitched tone with the time its string sounds it."""
        return list_held(self.piece.music)

    @cached_property
    def onsets(self) -> tuple[Onset, ...]:
        """The sounds in the order played."""
        return list_onsets(self.piece)

    @cached_property
    def quarter(self) -> float:
        """Seconds of a quarter at the full tempo."""
        return seconds_a_quarter(self.piece)

    @cached_property
    def analysis(self) -> Analysis:
        """The lines of the piece with their roles."""
        return analyse(self.piece)

    @cached_property
    def roles(self) -> tuple[RoleOf, ...]:
        """The role of every note."""
        return list_roles(self.analysis)

    @cached_property
    def techniques(self) -> Mapping[str, Use]:
        """The techniques of the piece, each with its first place."""
        return list_techniques(self.piece)

    @cached_property
    def difficulty(self) -> Difficulty:
        """What the piece asks of its player."""
        return measure(self.piece, self.techniques)

    @cached_property
    def by_address(self) -> Mapping[Address, Sound]:
        """The sounds by address."""
        return {
            sound.address: sound
            for bar in self.piece.music.bars
            for line in bar.lines
            for sound in line.sounds
        }

    @cached_property
    def outside(self) -> frozenset[int]:
        """Numbers of the bars that are said to be played outside the harmony."""
        return self.claimed("outside")

    def claimed(self, kind: ClaimKind) -> frozenset[int]:
        """Numbers of the bars of which something is claimed."""
        numbers: set[int] = set()
        for claim in self.piece.claims:
            if claim.kind == kind:
                numbers.update(
                    bar.number
                    for bar in self.piece.music.bars
                    if claim.bars is None or claim.bars.first.bar <= bar.number <= claim.bars.last.bar
                )
        return frozenset(numbers)

    def report(
        self,
        rule: Rule,
        message: str,
        span: Span,
        address: Address | None = None,
        *,
        severity: Severity | None = None,
        help: str = "",  # noqa: A002 - the finding's own word
        labels: tuple[Label, ...] = (),
        fix: Fix | None = None,
    ) -> Finding:
        """Return a finding of the piece."""
        return Finding(
            rule.id,
            rule.severity if severity is None else severity,
            message,
            span,
            labels,
            help,
            fix,
            self.piece.name,
            "" if address is None else str(address),
        )
