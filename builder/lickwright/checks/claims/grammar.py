"""The forms of terms: a pattern and a reader for each, in the order in which they are tried.

The patterns are put together from the tables of ``terms`` and ``theory``; groups inside them do not
capture. Words are in lower case (``even_case`` sees to it), letters of notes are capitals.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from lickwright.checks.claims.names import (
    CHORD_WORDS,
    SCALE_WORDS,
    SYMBOL,
    note_in,
    numbers_in,
    read_chord_words,
    read_movement,
    read_scale_words,
)
from lickwright.checks.claims.term import (
    ChordName,
    Count,
    Degree,
    FingerName,
    Numbers,
    StringName,
    StrokeName,
    TermKind,
    Value,
    Way,
)
from lickwright.terms.bends import AMOUNT, DISTANCE
from lickwright.terms.degrees import ALTERED, NAMED, PLAIN, read_degree
from lickwright.terms.fingers import FINGER, read_finger
from lickwright.terms.hedges import HEDGE
from lickwright.terms.intervals import INTERVAL, read_interval
from lickwright.terms.motion import BOUNDARY, DIRECTION, EDGE, read_boundary, read_direction
from lickwright.terms.movements import MOVEMENT
from lickwright.terms.notes import NOTE
from lickwright.terms.numbers import CARDINAL, ORDINAL
from lickwright.terms.rhythms import RHYTHM, read_rhythm
from lickwright.terms.strings import SIDE, read_side
from lickwright.terms.strokes import STROKE, read_stroke
from lickwright.terms.tunings import TUNING
from lickwright.terms.units import ADJECTIVES, NO_DISTANCE, UNIT, read_unit
from lickwright.theory.chord import Chord, parse_chord
from lickwright.theory.key import MODES, parse_key
from lickwright.theory.quality import QUALITIES

Read = tuple[TermKind, Value]
Reader = Callable[[str], Read | None]

_AFTER = (
    r"(?=\s*(?:$|[^\w\s]|(?:of|is|are|was|in|on|at|over|under|above|below|to|from|and|or|but|with|as|which|that"
    r"|then|here|there|before|after|again|itself|for|by|alone|degree|tone|comes|goes|falls|rises)\b))"
)
"""No noun follows: an ordinal stands for itself."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """A form: its pattern, and what reads the text it finds."""

    text: str
    read: Reader


def _any(words: str) -> str:
    return f"(?:{words})"


_CAPITALISED = re.compile(r"\b(?![A-G](?:b|m|maj|min|dim|sus|aug|add)(?:[0-9(/]|\b))[A-Z][a-z]+")


def even_case(text: str) -> str:
    """Return a text with its capitalised words in lower case; notes and chord symbols stay as they are.

    >>> even_case("The Bb in Bm7 Falls to A")
    'the Bb in Bm7 falls to A'
    """
    return _CAPITALISED.sub(lambda found: found[0].lower(), text)


def _key(text: str) -> Read | None:
    note = note_in(text)
    mode = next((mode for mode in MODES if re.search(rf"\b{mode}\b", text)), "major")
    key = None if note is None else parse_key(f"{note} {mode}")
    return None if key is None else ("key", key)


def _sounding(text: str) -> Read | None:
    note = note_in(text)
    return None if note is None else ("sounding", note)


def _symbol(text: str) -> Read | None:
    chord = parse_chord(re.sub(r"[ -]?(?:chord|triad)s?$", "", text))
    return ("chord", ChordName(chord)) if isinstance(chord, Chord) else None


def _chord_words(text: str) -> Read | None:
    chord = read_chord_words(text)
    return None if chord is None else ("chord", ChordName(chord))


def _plain_chord(text: str) -> Read | None:
    note = note_in(text)
    quality = QUALITIES["m" if re.search(r"\bminor\b", text) else "major"]
    return (
        None
        if note is None
        else ("chord", ChordName(Chord(note, quality), plain=not re.search(r"\b(?:major|minor)\b", text)))
    )


def _tonality(text: str) -> Read | None:
    key = parse_key(f"{note_in(text)} {'minor' if text.endswith('minor') else 'major'}")
    return None if key is None else ("tonality", key)


def _scale(text: str) -> Read | None:
    return "scale", read_scale_words(text)


def _arpeggio(text: str) -> Read | None:
    note = note_in(text)
    return ("device", "arpeggio") if note is None else _plain_chord(text)


def _shapes(text: str) -> Read | None:
    note = note_in(text)
    return None if note is None else ("shapes", note)


_SIDE_OF = {"high": 1, "low": -1}
"""Which of two strings of one note is meant."""


def _string(text: str) -> Read | None:
    is_open = bool(re.match(r"(?i)open", text))
    note = note_in(text)
    if note is not None:
        side = (
            1
            if re.match(r"(?i)(?:open )?high", text)
            else -1
            if re.match(r"(?i)(?:open )?low", text)
            else None
        )
        return "string", StringName(side, note, is_open)
    side = next((side for word in text.split() if (side := read_side(word)) is not None), None)
    numbers = numbers_in(text)
    number = side if side is not None else numbers[0] if numbers else None
    return ("string", StringName(number, None, is_open)) if number is not None else None


def _open(text: str) -> Read | None:
    return "string", StringName(None, note_in(text), open=True)


def _numbers(kind: TermKind) -> Reader:
    def read(text: str) -> Read | None:
        numbers = numbers_in(text)
        return (kind, Numbers(numbers[0], numbers[-1])) if numbers else None

    return read


def _position(text: str) -> Read | None:
    numbers = numbers_in(text)
    return "position", numbers[0] if numbers else 0


def _finger(text: str) -> Read | None:
    finger = read_finger(text)
    return None if finger is None else ("finger", FingerName(*finger))


def _stroke(text: str) -> Read | None:
    return "stroke", StrokeName(*read_stroke(text))


def _count(text: str) -> Read | None:
    numbers = numbers_in(text)
    words = re.split(r"[ -]", text)
    names = (" ".join(words[-2:]), "-".join(words[-2:]), words[-1])
    unit = next((unit for name in names if (unit := read_unit(name))), None)
    return ("count", Count(numbers[0], unit)) if numbers and unit else None


def _degree(text: str) -> Read | None:
    degree = read_degree(text)
    return None if degree is None else ("degree", Degree(*degree))


def _ending(text: str) -> Read | None:
    numbers = numbers_in(text)
    return ("ending", Numbers(numbers[0], numbers[-1])) if numbers else None


def _extreme(text: str) -> Read | None:
    return "extreme", Way("up" if text.split(maxsplit=1)[0] in ("highest", "top") else "down")


def _boundary(text: str) -> Read | None:
    return "boundary", read_boundary(text)


def _direction(text: str) -> Read | None:
    return "direction", Way(*read_direction(text))


def _rhythm(text: str) -> Read | None:
    value = read_rhythm(text)
    return None if value is None else ("rhythm", value)


def _tuning(text: str) -> Read | None:
    return "tuning", text


def _interval(text: str) -> Read | None:
    sizes = read_interval(text)
    return None if sizes is None else ("interval", sizes)


def _numeral(text: str) -> Read | None:
    word = re.split(r"[ -]", text)[0]
    roman = {"i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7}.get(word.casefold().strip("7"))
    numbers = numbers_in(word)
    number = roman or (numbers[0] if numbers else None)
    return ("numeral", number) if number else None


def _ordinal(text: str) -> Read | None:
    return "ordinal", numbers_in(text)[0]


def _word(kind: TermKind, value: str) -> Reader:
    return lambda _: (kind, value)


def _note(text: str) -> Read | None:
    note = note_in(text)
    return None if note is None else ("note", note)


_SIDES = rf"(?:{ORDINAL}|{SIDE})"
_MODE = rf"(?:{'|'.join(sorted(MODES, key=len, reverse=True))})"
_TO = r"(?: ?(?:-|–|to|and|through) ?)"
_CAPO = rf"capo(?: (?:at|on|in|the|fret|a))* (?:{CARDINAL}|{ORDINAL})(?: fret)?\b(?! frets\b)"
"""Not the distance that a capo moves: two frets higher."""
_MOVEMENT = (
    rf"(?:{AMOUNT}[ -])?{MOVEMENT}(?: (?:it|up|the (?:note|string)|by|an?)){{0,3}}(?: {DISTANCE})?(?![\w-])"
)
_NUMERAL = r"(?:I|II|III|IV|V|VI|VII|ii|iii|iv|vi|vii)7? chord\b|(?:one|two|three|four|five|six) chord\b"

PATTERNS: tuple[Pattern, ...] = (
    Pattern(_any(HEDGE), _word("hedge", "")),
    Pattern(rf"{_any('(?:in )?(?:the )?key of')} {NOTE}(?: {_MODE}\b)?", _key),
    Pattern(rf"{_any('sounds? (?:in|as)')}(?: the key of)? {NOTE}(?: {_MODE}\b)?", _sounding),
    Pattern(rf"{NOTE}[ -]{_any('shapes?')}\b", _shapes),
    Pattern(rf"{_any('shapes (?:in|of)')} {NOTE}", _shapes),
    Pattern(rf"(?:{NOTE} )?{_any(SCALE_WORDS)}", _scale),
    Pattern(rf"{SYMBOL}(?:[ -](?:chord|triad)s?\b)?", _symbol),
    Pattern(rf"{NOTE}[ -]{CHORD_WORDS}(?:[ -]chord)?(?![\w-])", _chord_words),
    Pattern(rf"{NOTE}(?:[ -](?:major|minor))?[ -](?:chord|triad|arpeggio)s?\b", _plain_chord),
    Pattern(
        _any(r"(?:major|minor|diminished|augmented) (?:chord|triad|arpeggio)\b"),
        lambda t: ("quality", t.split()[0]),
    ),
    Pattern(rf"{NOTE} (?:major|minor)\b", _tonality),
    Pattern(TUNING, _tuning),
    Pattern(rf"{_any('(?:open )?(?:high |low )?')}{NOTE}[ -]string\b", _string),
    Pattern(_any(rf"(?:open )?{_SIDES} strings?\b|strings? [1-8]\b"), _string),
    Pattern(rf"{_any('open')}(?: low| high)? {NOTE}|{_any('open strings?')}\b", _open),
    Pattern(_any(_CAPO), _numbers("capo")),
    Pattern(
        _any(rf"{ORDINAL} fret\b|frets? {CARDINAL}(?:{_TO}{CARDINAL})?\b(?! [a-z]+s\b)"), _numbers("fret")
    ),
    Pattern(_any(rf"(?:{ORDINAL}|open) position\b|position {CARDINAL}\b"), _position),
    Pattern(_any(FINGER), _finger),
    Pattern(_any(rf"(?:bars?|measures?) [0-9]{{1,3}}(?:{_TO}[0-9]{{1,3}})?\b"), _numbers("bar")),
    Pattern(
        _any(rf"(?:bars?|measures?) {CARDINAL}(?:{_TO}{CARDINAL})?\b(?! (?:beat|note|time|count)s\b)"),
        _numbers("bar"),
    ),
    Pattern(_any(rf"{ORDINAL} (?:bar|measure)\b(?! of )"), _numbers("bar")),
    Pattern(_any(rf"{ORDINAL} beat\b|beat {CARDINAL}\b"), _numbers("beat")),
    Pattern(_any(r"(?:highest|lowest|top|bottom) note(?!\w)"), _extreme),
    Pattern(_any(rf"{ORDINAL} ending\b"), _ending),
    Pattern(_any(rf"{BOUNDARY}|{EDGE}"), _boundary),
    Pattern(_any(DIRECTION), _direction),
    Pattern(_any(_MOVEMENT), read_movement),
    Pattern(_any(STROKE), _stroke),
    Pattern(_NUMERAL, _numeral),
    Pattern(_any(rf"{CARDINAL}[ -]{ADJECTIVES}{{0,2}}{UNIT}{NO_DISTANCE}"), _count),
    Pattern(_any(RHYTHM), _rhythm),
    Pattern(_any(INTERVAL), _interval),
    Pattern(_any(ALTERED), _degree),
    Pattern(rf"{_any(NAMED)}(?![\w-])", _degree),
    Pattern(rf"{_any(PLAIN)}{_AFTER}", _degree),
    Pattern(_any(rf"{ORDINAL}(?![\w-])"), _ordinal),
    Pattern(_any(r"arpeggi(?:o|os|ated)|broken chords?") + r"(?!\w)", _arpeggio),
    Pattern(_any(r"chromatic(?:ally)?") + r"(?!\w)", _word("device", "chromatic")),
    Pattern(_any(r"(?:let )?ring(?:s|ing)?(?: out| on)?") + r"(?!\w)", _word("ringing", "")),
    Pattern(NOTE, _note),
)
"""Every form, the longer before the shorter."""
