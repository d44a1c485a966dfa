"""Reads what is said of the strings of a sound, and of its grace notes."""

from __future__ import annotations

import re
from fractions import Fraction

from heard import HeardBend, HeardGrace, HeardTone
from phrases import BENT, FINGERS, HANDS, LEADS, NOTE, STEPS, MisheardError

_HEADS = (
    (re.compile(r"string ([0-9]+) fret ([0-9]+)"), "fretted"),
    (re.compile(r"string ([0-9]+) open"), "fretted"),
    (re.compile(r"string ([0-9]+) dead"), "dead"),
    (re.compile(r"string ([0-9]+) tapped at fret ([0-9]+)"), "tapped"),
    (re.compile(r"string ([0-9]+) hammered at fret ([0-9]+) without a stroke"), "hammered"),
    (re.compile(r"string ([0-9]+) still sounding"), "late"),
)
_HARMONIC = re.compile(r"string ([0-9]+)(?: fret ([0-9]+),)? harmonic over fret ([0-9]+(?:\.[0-9]+)?)")
_SOUNDS_AS = re.compile(r"as at fret ([0-9]+)( and a half)?")
_BEND = re.compile(rf"({'|'.join(BENT)})(?: (.+?))?(?: to ({NOTE}))?")
_HALF_STEPS = re.compile(r"([0-9]+(?:/[0-9]+)?) half steps")


def tones(words: str) -> tuple[HeardTone, ...]:
    """``string 2 fret 1, C with string 1 open, E``: all as struck."""
    return tuple(_tone(each) for each in re.split(r" with (?=string )", words))


def grace(words: str) -> HeardGrace:
    """``grace note string 2 fret 3, D, hammered into the next``."""
    said = words.removeprefix("grace note ")
    for phrase, join in LEADS.items():
        if said.endswith(", " + phrase):
            return HeardGrace(tones(said.removesuffix(", " + phrase)), join)
    return HeardGrace(tones(said), None)


def _head(words: str) -> tuple[int, str, int | None, Fraction | None, str]:
    """String, head, fret, touch, and the words left over."""
    found = _HARMONIC.match(words)
    if found:
        return int(found[1]), "harmonic", int(found[2] or 0), Fraction(found[3]), words[found.end() :]
    first, comma, rest = words.partition(", ")
    for pattern, head in _HEADS:
        found = pattern.fullmatch(first)
        if found:
            stopped = int(found[2]) if pattern.groups == 2 else (0 if head == "fretted" else None)
            return int(found[1]), head, stopped, None, comma + rest
    raise MisheardError(f"no string: {words}")


def _tone(words: str) -> HeardTone:
    string, head, fret, touch, rest = _head(words)
    note: str | None = None
    bends: list[HeardBend] = []
    once: dict[str, str] = {}
    for part in rest.split(", ")[1:]:
        told = _SOUNDS_AS.fullmatch(part)
        bent = _BEND.fullmatch(part)
        if told and bends and bends[-1].to < 0:
            to = int(told[1]) + (Fraction(1, 2) if told[2] else 0)
            bends[-1] = HeardBend(bends[-1].kind, bends[-1].steps, bends[-1].note, Fraction(to))
        elif bent:
            steps = _steps(bent[2]) if bent[2] else None
            sunk = BENT[bent[1]] == "release" and steps is not None
            bends.append(HeardBend(BENT[bent[1]], -steps if sunk and steps else steps, bent[3], Fraction(-1)))
        elif re.fullmatch(NOTE, part) and note is None and not bends:
            note = part
        else:
            once = _also(once, part)
    if any(bend.to < 0 for bend in bends):
        raise MisheardError(f"a bend to nowhere: {words}")
    return HeardTone(
        string,
        head,
        fret,
        touch,
        note,
        tuple(bends),
        "vibrato" in once,
        once.get("finger"),
        once.get("hand"),
        "tied" if "ringing on" in once else "struck",
    )


def _also(once: dict[str, str], part: str) -> dict[str, str]:
    """Vibrato, ringing on, a finger, a plucking finger: each once."""
    if part in FINGERS:
        key, value = "finger", FINGERS[part]
    elif part in HANDS:
        key, value = "hand", HANDS[part]
    else:
        key, value = part, part
    if key in once or key not in {"finger", "hand", "vibrato", "ringing on"}:
        raise MisheardError(f"nothing told of a string by: {part}")
    return {**once, key: value}


def _steps(words: str) -> Fraction:
    counted = _HALF_STEPS.fullmatch(words)
    steps = Fraction(counted[1]) if counted else STEPS.get(words)
    if steps is None:
        raise MisheardError(f"no size of a bend: {words}")
    return steps
