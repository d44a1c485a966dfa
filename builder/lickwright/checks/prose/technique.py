"""A technique that the words name and the notes do not use.

Slides, hammer-ons, pull-offs, bends, harmonics and their like are looked for among the notes of the link,
the join that leads away from them included. ``a slide from A flat to A`` must lead from the one to the other.

Why it matters: the student practises what the words call it, and the page shows something else.

What to do: find out which is right, the word or the sign in the notes.
"""

from __future__ import annotations

import re

from lickwright.analysis.techniques import uses
from lickwright.checks.claims.claim import HELD, Claim, Differs, Verdict
from lickwright.checks.claims.ledger import tell
from lickwright.checks.claims.pointed import Pointed, pitch_classes
from lickwright.checks.claims.saying import say_list, say_place
from lickwright.checks.claims.term import Movement, StringName
from lickwright.checks.rule import Example, Rule, Severity, Source
from lickwright.model.music import Sound, Tone
from lickwright.model.slots import SLIDES, JoinKind
from lickwright.model.strike import Late
from lickwright.terms.techniques import KINDS_OF
from lickwright.theory.pitch import PitchClass

JOINS: dict[str, tuple[JoinKind, ...]] = {
    "hammer-on": (JoinKind.HAMMER,),
    "pull-off": (JoinKind.PULL,),
    "slide": SLIDES,
    "shift slide": (JoinKind.SHIFT,),
}
_GOES = re.compile(r"\b(?:to|into)\b")


def judge(claim: Claim, notes: Pointed) -> Verdict:
    """Look for the technique; where it says from where to where, for one that leads so."""
    said = claim.terms[0].value
    assert isinstance(said, Movement)  # the kind of claim says so
    name = said.name
    if not any(name in used(sound) for sound in _sounds(notes)) and not _together(name, notes):
        return Differs(
            f"the words say “{claim.terms[0].text}”, and there is no {name} at {say_place(notes)}",
            claim.terms[0],
            help=_hint(notes),
        )
    before, after = _ends(claim)
    if name not in JOINS or not before or not after:
        return HELD
    addresses = {sound.address for sound in _sounds(notes)}
    leads = [lead for lead in notes.subject.leads if lead.kind in JOINS[name] and lead.address in addresses]
    for lead in leads:
        if pitch_classes(lead.before) & before and pitch_classes(lead.after) & after:
            return HELD
    if not leads:
        return HELD  # it is hammered from nowhere, slid from nowhere
    real = say_list([f"from {_say(notes, x.before)} to {_say(notes, x.after)}" for x in leads[:3]])
    message = f"the words say “{claim.words}”, and the {name} at {say_place(notes)} goes {real}"
    return Differs(message, help=f"Write “{real}”, or mend the notes")


def used(sound: Sound) -> frozenset[str]:
    """Return the techniques of a sound as words may call them, and what those are kinds of.

    Two strings are a double stop whoever strikes them, and several grace notes may be called a rake.
    """
    names = set(uses(sound))
    if len(sound.tones) > 1:
        names.add("double stop")
    if sound.grace:
        names.add("grace note")
        names |= {"rake"} if sum(len(grace.tones) for grace in sound.grace) > 1 else set()
    return frozenset(names.union(*(KINDS_OF.get(name, ()) for name in names)))


def _together(name: str, notes: Pointed) -> bool:
    """Whether a bend sounds with another string: at the same pitch in the end, or at any."""
    if name not in ("unison bend", "oblique bend"):
        return False
    tones = [tone for _, tone in notes.tones]
    bent = [tone for tone in tones if tone.bends]
    others = [tone for tone in tones if not tone.bends]
    if name == "oblique bend":
        return bool(bent and others)
    return any(max(b.path) == o.path[0] for b in bent for o in others)


def _sounds(notes: Pointed) -> list[Sound]:
    """The sounds of the link, and those that a join leads to from its last."""
    found: list[Sound] = []
    for voice in notes.voices:
        found.extend(heard.sound for heard in voice)
        last = voice[-1]
        bars = notes.subject.piece.music.bars
        lines = (line for bar in bars[last.index : last.index + 2] for line in bar.lines)
        later = (s for line in lines for s in line.sounds if s.address.lower == last.sound.address.lower)
        following = next((s for s in later if s.address > last.sound.address), None)
        if following is not None and (
            following.joined is not None or isinstance(following.tones[0].head, Late)
        ):
            found.append(following)
    return found


def _ends(claim: Claim) -> tuple[frozenset[int], frozenset[int]]:
    """The pitch classes that are named on both sides of ``to``."""
    text = claim.link.passage.text
    terms = claim.terms[1:]
    if not terms:
        return frozenset(), frozenset()
    to = _GOES.search(text, terms[0].end)
    if to is None:
        return frozenset(), frozenset()
    names = [(t, t.value.note if isinstance(t.value, StringName) else t.value) for t in terms]
    before = {n.semitone for t, n in names if isinstance(n, PitchClass) and t.end <= to.start()}
    after = {n.semitone for t, n in names if isinstance(n, PitchClass) and t.start >= to.end()}
    return frozenset(before), frozenset(after)


def _say(notes: Pointed, tone: Tone) -> str:
    for (address, number), names in notes.subject.spelled.items():
        sound = notes.subject.by_address.get(address)
        if sound is not None and number <= len(sound.tones) and sound.tones[number - 1] is tone and names:
            return names[-1].name.spoken
    return f"{tone.string}:{tone.fret}"


def _hint(notes: Pointed) -> str:
    found = sorted(frozenset().union(*(used(sound) for sound in _sounds(notes))) - {"double stop"})
    there = f"What is there: {say_list(found)}" if found else "Every note is plainly struck there"
    return f"{there}; mend the word, or the sign in the notes"


RULE = Rule(
    id="prose/technique",
    title="A technique that the words name and the notes do not use",
    severity=Severity.ERROR,
    source=Source("language contract", "Section 5, Prose that points at notes: techniques"),
    good=(
        Example(
            "```lick example\nA7 | 3:5 - 5:3 h 5:4 4:4 p 4:2 5:0 -\n```\n\n"
            "[The hammer-on from C to C sharp](lick:example@1.2-1.3), then it [pulls off to "
            "E](lick:example@1.4-1.5)."
        ),
        Example(
            "```lick example\nA | 2:2 s 2:5 1:5 - 3:2 - - -\n```\n\n"
            "Slide from [C sharp](lick:example@1.1) to [E](lick:example@1.2)."
        ),
    ),
    bad=(
        Example(
            "```lick example\nA7 | 3:5 - 5:3 h 5:4 4:4 - 5:0 -\n```\n\n[The pull-off](lick:example@1.2-1.3).",
            ("pull-off",),
        ),
        Example(
            "```lick example\nkey: E major\n\nE7 | 3:1 s 3:4 4:2 3:1 4:2 - 4:2 -\n```\n\n"
            "[Slide from B to G sharp](lick:example).",
            ("Slide from B to G sharp",),
        ),
    ),
    survey=tell("technique", Severity.ERROR),
)
