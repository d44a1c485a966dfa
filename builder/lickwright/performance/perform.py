"""From resolved music and a tempo to what the hands do."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from lickwright.instrument.harmonics import node
from lickwright.model.music import Music, Sound, Tone
from lickwright.model.slots import JoinKind
from lickwright.model.strike import Dead, Hammered, Harmonic, Late, Slide, Tapped
from lickwright.model.timeline.played import Played, play, play_bars
from lickwright.performance.bending import bend, bend_late, shake
from lickwright.performance.event import Attack, Glide, Performance, StringEvent, Stroke
from lickwright.performance.grace import play_graces
from lickwright.performance.lights import light
from lickwright.performance.ornament import ornament
from lickwright.performance.picking import choose_strokes, force
from lickwright.performance.ringing import Ringing
from lickwright.performance.strings import Strings

TAIL = 1.0
"""Seconds kept after the last bar: its last sound rings into them."""

_RING_OUT = 0.75  # seconds that what lasts to the end of the last bar goes on
_STRUM, _SPREAD = 0.006, 0.032  # seconds from string to string of a strum, of a spread chord
_SHORT = 0.5  # share of its length that a short note sounds
_DEAD = 0.15  # seconds after which a dead note is over
_MUTE = 0.8
_SLIDE = 0.16  # longest slide to a written note, seconds
_REACH = 2.0  # frets from which a note is slid into
_AWAY = 4.0  # frets to which a note is slid out
_FINGERS = frozenset("pimac")


def perform(music: Music, bpm: Fraction | float) -> Performance:
    """Play music at a tempo.

    Args:
        music: Resolved, without errors; a tone on a string that is not there is left out.
        bpm: Quarters a minute, over 0.

    Returns:
        The events with exact times: a note begins where the music says, swing and repeats counted in.
    """
    quarter = Fraction(60) / Fraction(bpm)
    bars = play_bars(music)
    sounds = play(music)
    length = float(bars[-1].end * quarter) if bars else 0.0
    player = _Player(music, quarter, length, Ringing(sounds))
    strokes = choose_strokes(sounds, music.picking)
    for number, (played, stroke) in enumerate(zip(sounds, strokes, strict=True)):
        player.play(number, played, stroke)
    guitar = music.guitar
    return Performance(
        events=player.strings.finish(),
        length=length,
        tail=TAIL,
        opens=tuple(float(guitar.open_midi(string) - guitar.capo) for string in range(1, guitar.strings + 1)),
        instrument=guitar.sound,
        bars=(*(float(bar.start * quarter) for bar in bars), length),
        lights=light(sounds, quarter),
    )


@dataclass(frozen=True, slots=True)
class _Moment:
    """A sound with its times in seconds: onset, written end, strength, stroke."""

    sound: Sound
    start: float
    end: float
    hard: float
    stroke: Stroke | None

    @property
    def seconds(self) -> float:
        return self.end - self.start


class _Player:
    """Goes through the sounds in order and keeps the strings."""

    def __init__(self, music: Music, quarter: Fraction, length: float, ringing: Ringing) -> None:
        self.strings = Strings()
        self._music = music
        self._quarter = quarter
        self._eighth = float(quarter / 2)
        self._length = length
        self._ringing = ringing
        self._before: dict[bool, tuple[float, tuple[int, ...]]] = {}

    def play(self, number: int, played: Played, stroke: Stroke | None) -> None:
        """Play one sound with its grace notes."""
        sound = played.sound
        start, end = float(played.start * self._quarter), float(played.end * self._quarter)
        hard = force(played)
        leads: dict[int, Attack | None] = {}
        if sound.grace:
            since, strings = self._before.get(sound.address.lower, (0.0, ()))
            graces, start = play_graces(sound, self._music.guitar, since, start, hard, stroke)
            if graces:
                for string in strings:
                    self.strings.leave(string, graces[0].event.start)
            for grace in graces:
                self._join(grace.event, grace.event.attack)
                leads[grace.event.string] = grace.lead
        moment = _Moment(sound, start, max(end, start + 0.02), hard, stroke)
        for tone, late in self._spread(moment):
            self._tone(number, moment, tone, late, leads.get(tone.string))
        damped = () if sound.ring else tuple(tone.string for tone in sound.tones if not tone.rings_through)
        self._before[sound.address.lower] = (start, damped)

    def _spread(self, moment: _Moment) -> Iterator[tuple[Tone, float]]:
        """Tones with how many seconds each is late: a strum runs over the strings, low to high or back."""
        sound = moment.sound
        tones = [tone for tone in sound.tones if self._music.guitar.has_string(tone.string)]
        struck = [tone for tone in tones if tone.struck]
        picked = not any(tone.hand in _FINGERS for tone in struck)
        step = 0.0
        if sound.spread:
            step = min(_SPREAD, 0.4 * moment.seconds / max(len(struck), 1))
        elif len(struck) > 2 and picked:
            step = _STRUM
        up = moment.stroke == "up" and not sound.spread
        order = sorted(struck, key=lambda tone: tone.string if up else -tone.string)
        late = {tone.string: step * place for place, tone in enumerate(order)}
        for tone in sorted(tones, key=lambda tone: late.get(tone.string, 0.0)):
            yield tone, late.get(tone.string, 0.0)

    def _tone(self, number: int, moment: _Moment, tone: Tone, late: float, lead: Attack | None) -> None:
        until = self._until(number, moment, tone)
        if tone.tied:
            self.strings.hold(tone.string, until)
            return
        event = self._event(moment, tone, late, until, lead)
        if event is None:
            return
        if moment.sound.slide_in:
            event = _slide_in(event, moment.sound.slide_in, moment.seconds)
        if moment.sound.slide_out and not tone.rings_through:
            event = _slide_out(event, moment.sound.slide_out, self._top())
        for part in ornament(event, moment.sound.signs, self._music.guitar.capo, moment.seconds):
            self._join(part, part.attack, shift=tone.link is JoinKind.SHIFT)

    def _until(self, number: int, moment: _Moment, tone: Tone) -> float:
        """Seconds at which the tone ends if its string is not used again."""
        if isinstance(tone.head, Dead):
            return min(moment.end, moment.start + _DEAD) if "scrape" not in moment.sound.signs else moment.end
        if moment.sound.short:
            return moment.start + _SHORT * moment.seconds
        end = float(self._ringing.end(number, tone) * self._quarter)
        if end >= self._length - 1e-6 and not moment.sound.slide_out:
            end = self._length + _RING_OUT
        return max(end, moment.start + 0.02)

    def _event(
        self, moment: _Moment, tone: Tone, late: float, until: float, lead: Attack | None
    ) -> StringEvent | None:
        guitar, sound = self._music.guitar, moment.sound
        before = self.strings.now(tone.string)
        event = StringEvent(
            string=tone.string,
            start=moment.start + late,
            end=until,
            attack=_attack(tone, sound, self._music.picking.style == "fingers"),
            stroke=moment.stroke,
            velocity=moment.hard,
            stop=float(guitar.capo + (tone.fret or 0)),
            mute=_MUTE if sound.mute else 0.0,
            ring=sound.ring > 0,
            source=str(sound.address),
        )
        if isinstance(tone.head, Late):
            if before is None or not tone.path:
                return None
            held = self.strings.height(tone.string)
            target = 100 * float(tone.path[-1] - guitar.open_midi(tone.string) - (tone.fret or 0))
            if before.harmonic is not None:
                target = held + 100 * float(tone.path[-1] - tone.path[0])
            curve = bend_late(held, target, moment.seconds, self._eighth)
            event = replace(event, stop=before.arrival, curve=curve, harmonic=before.harmonic)
        elif isinstance(tone.head, Dead):
            attack = Attack.SCRAPE if "scrape" in sound.signs else Attack.DEAD
            return replace(event, attack=attack, stop=float(guitar.capo + 5))
        else:
            event = self._pitch(event, tone, moment)
            if lead is not None and tone.struck and not isinstance(tone.head, Tapped | Hammered):
                event = replace(event, attack=lead)
        if event.attack not in {Attack.PICK, Attack.DEAD}:
            event = replace(event, stroke=None)
        wide = "wide" in sound.signs
        if wide or tone.vibrato:
            shaken = shake(event.curve, moment.seconds, wide=wide)
            event = replace(event, vibrato=shaken)
        return event

    def _pitch(self, event: StringEvent, tone: Tone, moment: _Moment) -> StringEvent:
        guitar = self._music.guitar
        ground = Fraction(guitar.open_midi(tone.string) + (tone.fret or 0))
        if isinstance(tone.head, Harmonic):
            found = node(tone.head.touch, tone.head.fret)
            ground += found.semitones if found else 0
            event = replace(event, harmonic=found.partial if found else 2)
        elif "pinch" in moment.sound.signs:
            event = replace(event, harmonic=4, velocity=min(1.0, event.velocity + 0.15))
        heights = [100 * float(pitch - ground) for pitch in tone.path]
        kinds = [written.kind for written in tone.bends]
        return replace(event, curve=bend(heights, kinds, moment.seconds, self._eighth))

    def _join(self, event: StringEvent, attack: Attack, *, shift: bool = False) -> None:
        """Hand an event to the strings; a slide is made by the event before it."""
        if attack is Attack.SLIDE or shift:
            self.strings.lead(event.string, event.stop, event.start, longest=_SLIDE)
        self.strings.add(event)

    def _top(self) -> float:
        return float(self._music.guitar.frets)


def _attack(tone: Tone, sound: Sound, fingers: bool) -> Attack:
    if isinstance(tone.head, Late):
        return Attack.BEND
    if isinstance(tone.head, Tapped):
        return Attack.TAP
    if isinstance(tone.head, Hammered):
        return Attack.HAMMER
    if not tone.struck and tone.link is not None:
        return {
            JoinKind.HAMMER: Attack.HAMMER,
            JoinKind.PULL: Attack.PULL,
            JoinKind.SLIDE: Attack.SLIDE,
        }.get(tone.link, Attack.PICK)
    if tone.hand in _FINGERS or (fingers and sound.stroke is None and tone.hand is None):
        return Attack.FINGER
    return Attack.PICK


def _slide_in(event: StringEvent, way: Slide, seconds: float) -> StringEvent:
    from_ = event.stop - _REACH if way is Slide.RISING else event.stop + _REACH
    begin = max(from_, min(event.stop, 1.0)) if way is Slide.RISING else from_
    takes = min(0.1, 0.35 * seconds)
    return replace(event, stop=begin, glides=(Glide(0.0, takes, begin, event.stop), *event.glides))


def _slide_out(event: StringEvent, way: Slide, top: float) -> StringEvent:
    length = event.end - event.start
    takes = min(0.22, 0.5 * length)
    goal = min(event.arrival + _AWAY, top) if way is Slide.RISING else max(event.arrival - _AWAY, 0.0)
    if goal == event.arrival:
        return event
    glide = Glide(length - takes, takes, event.arrival, goal, smooth=True)
    return replace(event, glides=(*event.glides, glide))
