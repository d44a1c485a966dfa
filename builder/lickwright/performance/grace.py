"""Grace notes and rakes: before the beat, out of the time of what precedes."""

from dataclasses import dataclass

from lickwright.instrument.guitar import Guitar
from lickwright.model.music import GraceNote, Sound
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Dead
from lickwright.performance.event import Attack, StringEvent, Stroke

_GRACE, _RAKE = 0.07, 0.028  # seconds of a grace note, of a string in a rake
_SHARE = 0.5  # of the time of what precedes, at most
_SOFT = 0.85  # strength against the note it leads to

_ATTACKS = {JoinKind.HAMMER: Attack.HAMMER, JoinKind.PULL: Attack.PULL, JoinKind.SLIDE: Attack.SLIDE}


@dataclass(frozen=True, slots=True)
class GraceEvent:
    """A grace note played, and how the next note of its string begins: None = it is struck."""

    event: StringEvent
    lead: Attack | None


def play_graces(
    sound: Sound, guitar: Guitar, since: float, start: float, hard: float, stroke: Stroke | None
) -> tuple[list[GraceEvent], float]:
    """Play the grace notes of a sound.

    Args:
        sound: With grace notes.
        guitar: Which strings there are, and the capo.
        since: Seconds at which what precedes began.
        start: Seconds at which the sound is written.
        hard: Its velocity.
        stroke: Its stroke; the first grace note has it.

    Returns:
        The events in order, and the onset of the sound: where it is written, or, at the very beginning, where
        nothing precedes, after the grace notes.
    """
    each = _RAKE if _is_rake(sound.grace) else _GRACE
    room = start - since
    wanted = each * len(sound.grace)
    if room > 0:
        wanted = min(wanted, _SHARE * room)
        first = start - wanted
    else:
        first = start
    step = wanted / len(sound.grace)
    events: list[GraceEvent] = []
    leads: dict[int, Attack] = {}
    for number, grace in enumerate(sound.grace):
        moment = first + number * step
        lead = _ATTACKS.get(grace.leads) if grace.leads else None
        for tone in grace.tones:
            if not guitar.has_string(tone.string):
                continue
            attack = Attack.DEAD if isinstance(tone.head, Dead) else leads.get(tone.string, Attack.PICK)
            event = StringEvent(
                string=tone.string,
                start=moment,
                end=moment + step,
                attack=attack,
                stroke=stroke if attack in {Attack.PICK, Attack.DEAD} else None,
                velocity=_SOFT * hard,
                stop=float(guitar.capo + (5 if tone.fret is None else tone.fret)),
                source=str(sound.address),
            )
            events.append(GraceEvent(event, lead))
        leads = {tone.string: lead for tone in grace.tones} if lead else {}
    return events, first + wanted


def _is_rake(graces: tuple[GraceNote, ...]) -> bool:
    """Several strings one after the other, none twice: a rake, or a roll quick as one."""
    strings = [tone.string for grace in graces for tone in grace.tones]
    dead = all(isinstance(tone.head, Dead) for grace in graces for tone in grace.tones)
    return dead and len(set(strings)) == len(strings) > 1
