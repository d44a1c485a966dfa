"""The licks of a course resolved, each variation after what it is made from, in any order of writing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lickwright.findings import Finding
from lickwright.model.blocks import Lick
from lickwright.model.course import Settings
from lickwright.model.music import Piece
from lickwright.model.timeline.faults import Faults
from lickwright.model.timeline.harmony import Grid
from lickwright.model.timeline.piece import resolve_lick
from lickwright.model.timeline.variation import apply, base_chain, without_rows
from lickwright.model.timeline.wording import Names


class LickResolver:
    """Resolves licks, each once.

    Attributes:
        pieces: By name, as far as resolved.
        findings: By the lick they were found in.
    """

    def __init__(
        self, licks: Mapping[str, Lick], grids: Mapping[str, Grid], settings: Settings, names: Names
    ) -> None:
        self.pieces: dict[str, Piece] = {}
        self.findings: dict[str, tuple[Finding, ...]] = {}
        self._licks = licks
        self._grids = grids
        self._settings = settings
        self._names = names
        self._written: dict[str, Lick] = {}

    def resolve(self, lick: Lick) -> None:
        """Resolve a lick and, before it, all that it is made from."""
        if lick.name in self.findings:
            return
        faults = Faults(lick.name)
        chain = base_chain(lick, self._licks, faults, self._names)
        if chain is None:
            self.findings[lick.name] = tuple(faults)
            return
        for one in chain:
            if one.name not in self.findings:
                self._resolve(one)

    def _resolve(self, lick: Lick) -> None:
        faults = Faults(lick.name)
        base = self._written.get(lick.vary or "")
        written, changed = (lick, ()) if base is None else apply(lick, base, faults)
        if written.bars:
            piece = self._piece(written, faults)
            before = self.pieces.get(lick.vary or "")
            stale = set() if before is None else _other_chords(piece, before)
            if stale:  # degrees of another chord say nothing here
                written = without_rows(written, stale, ("degrees",))
                piece = self._piece(written, Faults(lick.name))
            self.pieces[lick.name] = replace(piece, changed=changed)
            _check_strings(lick, piece, faults)
        self._written[lick.name] = written
        # the reader has seen the joins of written bars; only a change can break one unseen
        self.findings[lick.name] = tuple(
            finding for finding in faults if lick.vary is not None or finding.rule != "syntax/join"
        )

    def _piece(self, written: Lick, faults: Faults) -> Piece:
        return resolve_lick(written, self._grids, self._settings, faults, self._names)


def _other_chords(piece: Piece, base: Piece) -> set[int]:
    """Indices of the bars whose chords are not the base's."""
    return {
        index
        for index, bar in enumerate(piece.music.bars)
        if (old := base.music.bar(bar.number)) is None
        or [(c.onset, c.symbol) for c in old.chords] != [(c.onset, c.symbol) for c in bar.chords]
    }


def _check_strings(lick: Lick, piece: Piece, faults: Faults) -> None:
    """A variation may be for another guitar: it must have the strings its base plays."""
    if lick.vary is None or lick.tuning is None:
        return
    strings = piece.music.guitar.strings
    played = {
        tone.string
        for bar in piece.music.bars
        for line in bar.lines
        for sound in line.sounds
        for tone in sound.tones
    }
    if missing := sorted(string for string in played if string > strings):
        faults.add(
            "course/vary-strings",
            f"“{lick.vary}” is played on string {missing[0]}: this tuning has {strings} strings",
            lick.place_of("tuning"),
            help="Change those sounds to strings that are there, or tune as many strings as the base has",
        )
