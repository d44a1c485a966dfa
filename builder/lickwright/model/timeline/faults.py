"""Every rule the timeline reports by: what shows only when references, holds and repeats are resolved."""

from __future__ import annotations

from collections.abc import Iterator

from lickwright.findings import Finding, Label
from lickwright.findings.register import read_register
from lickwright.model.address import Address
from lickwright.text import Span

FAULTS = read_register("""
rhythm/hold-at-start | error | A hold with nothing before it to lengthen
rhythm/hold-at-repeat | error | A hold after a repeat sign that two different sounds lead to
rhythm/too-short | error | Notes that would be printed shorter than a 256th
rhythm/over-count | error | Chords over a lick that are not one for each bar
rhythm/over-length | error | A lick not as long as the bars of the progression it is said to be over
rhythm/over-meter | error | A lick in another meter than its progression
rhythm/seam | error | A pickup for which the lick before leaves no room
rhythm/slow-tempo | error | The reduced tempo is not lower than the tempo
rhythm/chorus-length | note | A chorus that is not whole turns of its progression
syntax/field-value | error | A field whose value cannot be read
syntax/string | error | A string that the guitar does not have
syntax/join | error | A hammer-on, pull-off or slide that does not stand between two sounds
syntax/late-bend | error | A late bend or release on a string that is not sounding
hands/late-bend-direction | error | A late bend that does not go up, or a release that does not come down
hands/scale | error | A scale that cannot be fingered as it is asked for
open-strings/scale | note | A scale that does not ring over the open strings
hands/join-stands-still | error | A join after which no string has moved
harmony/over-repeat | error | A repeated bar that meets two different chords
harmony/chord-disagrees | error | A margin that names another chord than the progression
harmony/chord-colour | query | A margin and a progression that differ in the chord's extension
harmony/chorus-chord | note | A lick of a chorus that stands over another chord than it was written for
harmony/key-disagrees | note | A lick in another key than its progression
harmony/no-chord-stated | note | A bar with no chord in force
course/unknown-progression | error | A progression that is not in the course
course/progression-bars | error | Bars that the progression does not have
course/unknown-lick | error | A lick that is not in the course
course/vary-circle | error | Variations that lead back to themselves
course/vary-strings | error | A variation on a guitar that lacks strings of its base
course/change-address | error | A variation changes a sound that its base does not have
course/field-bars | error | A field names bars that the lick does not have
course/excerpt-address | error | An excerpt shows bars or sounds that its lick does not have
course/excerpt-endings | note | An excerpt shows endings of one repeat in a row
course/chorus-guitar | error | Licks of one chorus in different tunings or with different capos
course/chorus-meter | error | Licks of one chorus in different meters
course/link-target | error | A link to a lick or chorus that is not in the course
course/link-address | error | A link to notes that its lick does not have
""")
"""The timeline's rules by their ids."""


class Faults:
    """Collects the findings of one block.

    Attributes:
        lick: Name of the block, put on every finding.
    """

    def __init__(self, lick: str) -> None:
        self.lick = lick
        self._found: list[Finding] = []

    def add(
        self,
        rule: str,
        message: str,
        span: Span,
        *,
        help: str = "",  # noqa: A002 - the finding's own word
        labels: tuple[Label, ...] = (),
        address: Address | None = None,
    ) -> None:
        """Report one fault."""
        place = "" if address is None else str(address)
        fault = FAULTS[rule]
        self._found.append(Finding(rule, fault.severity, message, span, labels, help, None, self.lick, place))

    def __iter__(self) -> Iterator[Finding]:
        return iter(self._found)
