"""MusicXML files against the published schema, music21 and Verovio."""

import re
from collections import Counter
from functools import cache

import exchanged
import music21
import music21_witness
import pytest
import schemas
from exchanged import file, pieces, read
from lxml import etree
from verovio_witness import Witness, late_by

from lickwright.exchange.musicxml.kinds import KINDS
from lickwright.model.music import Music
from lickwright.model.orders import Credits
from lickwright.model.slots import JoinKind
from lickwright.model.strike import BendKind, Dead, Harmonic, Late, Slide, Tapped
from lickwright.terms.signs import TABLE
from lickwright.theory.chord import Chord
from lickwright.theory.quality import QUALITIES

NAMES = sorted(pieces())
SHARES = [pytest.param(NAMES[::3], id="a third"), pytest.param(NAMES, id="all", marks=pytest.mark.slow)]
PORCH = """title: Porch step
key: A major
pickup: 1/8

| 5:2
|: A7 D7 | 5:0 5:4 4:2 s 4:4 2:8b10r8 - 2:8b10~! -
   rh | d u d * u d
   lh | 0 3 1 1 4 4
Bbm7b5 | 3:2 h 3:4 4:4 4:2 ring[(4:0 5:4 5:3)/2 5:4 5:5]
1. D | mute[5:5 5:5 4:x 4:x] 3:2+2:3 - 1:<12> - :|
2. A | g(2:3) 2:5 - - - 6:5+5:7+4:7^ - - -
"""


@cache
def document(name: str) -> bytes:
    return file(pieces()[name], "musicxml")


def valid(text: bytes) -> bool:
    return bool(schemas.musicxml().validate(etree.fromstring(text)))


def test_every_file_is_valid() -> None:
    """The schema of MusicXML 4.0 accepts the file of every piece."""
    wrong = {name: schemas.musicxml().error_log for name in NAMES if not valid(document(name))}
    assert not wrong, wrong


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<voice>1</voice>", "<voice>1</voice><duration>1</duration>"),
        (">dominant<", ">seventh<"),
        ('type="start"', 'type="begin"'),
        ("<type>eighth</type>", "<type>8</type>"),
        ("<tuning-step>E</tuning-step>", "<tuning-step>H</tuning-step>"),
    ],
)
def test_the_schema_refuses(old: str, new: str) -> None:
    """A planted element out of order, and values that are none, are refused."""
    text = file(read(PORCH), "musicxml").decode()
    assert old in text
    assert valid(text.encode())
    assert not valid(text.replace(old, new, 1).encode())


def misread(music: Music, text: bytes) -> list[str]:
    """What music21 reads otherwise than the model has it."""
    staff, tab = music21_witness.parse(text).parts
    wrong = []
    if music21_witness.soundings(tab) != exchanged.soundings(music):
        wrong.append("soundings")
    if music21_witness.graces(tab) != exchanged.graces(music):
        wrong.append("grace notes")
    lines = [
        sorted((note.onset, note.pitch, note.length, note.tie) for note in music21_witness.notes(part))
        for part in (staff, tab)
    ]
    if lines[0] != lines[1]:
        wrong.append("staff and tab")
    return wrong


@pytest.mark.slow
def test_music21_reads_the_notes_of_every_piece() -> None:
    """Onset, length, pitch, string and fret of every tone, and every grace note, are those of the model."""
    wrong = {name: found for name in NAMES if (found := misread(pieces()[name].music, document(name)))}
    assert not wrong


@pytest.mark.parametrize("name", [name for name in NAMES if "every-sign" in name and "@" not in name][::4])
def test_music21_reads_the_notes(name: str) -> None:
    """The same for some of them, whenever the tests are run."""
    assert not misread(pieces()[name].music, document(name))


@pytest.mark.parametrize(
    ("old", "new", "wrong"),
    [
        (r"<fret>4</fret>", "<fret>3</fret>", "soundings"),
        (r"<string>4</string>", "<string>3</string>", "soundings"),
        (r"<step>C</step>", "<step>D</step>", "soundings"),
        (r"(?s)<note id=\"t1-2u1.*?</note>", "", "soundings"),
        (r'<tie type="start"/>(?=(?s:.)*?<staff>2)', "", "staff and tab"),
        (r"(?s)<note id=\"t4-1ug1-1.*?</note>", "", "grace notes"),
    ],
)
def test_music21_catches(old: str, new: str, wrong: str) -> None:
    """A planted wrong fret, string, letter, a note or grace note left out, a tie left out are noticed."""
    piece = read(PORCH)
    text = file(piece, "musicxml").decode()
    assert not misread(piece.music, text.encode())
    changed = re.sub(old, new, text, count=0 if new.startswith("<step") else 1)
    assert changed != text
    try:
        found = misread(piece.music, changed.encode())
    except (AssertionError, KeyError, IndexError):  # it cannot even be put together
        return
    assert wrong in found


def without_graces(text: bytes) -> bytes:
    """Verovio gives grace notes of a tab time of their own; music21 reads them."""
    root = etree.fromstring(text)
    for grace in root.iter("grace"):
        note = grace.getparent()
        assert note is not None
        parent = note.getparent()
        assert parent is not None
        parent.remove(note)
    return etree.tostring(root)


def nested(piece_name: str) -> bool:
    """Whether a tuplet stands in another: Verovio counts the inner ratio alone."""
    return b'<tuplet number="2"' in document(piece_name)


@pytest.mark.parametrize("names", SHARES)
def test_verovio_plays_every_note_when_the_music_says(names: list[str]) -> None:
    """Staff and tab begin every tone at the onset of the music."""
    late = {
        name: found
        for name in names
        if not nested(name)
        and (found := late_by(pieces()[name].music, Witness(without_graces(document(name)))))
    }
    assert not late
    assert sum(map(nested, NAMES)) < 5


def test_a_shifted_note_is_caught() -> None:
    """A planted longer duration shifts what follows, and is noticed."""
    piece = read(PORCH)
    text = without_graces(file(piece, "musicxml")).decode()
    assert not late_by(piece.music, Witness(text.encode()))
    longer = re.sub(r"(id=\"s1-1u1\"(?:(?s:.)*?))<type>eighth", r"\1<type>quarter", text, count=1)
    longer = re.sub(
        r"(id=\"s1-1u1\"(?:(?s:.)*?)<duration>)(\d+)", lambda m: m[1] + str(2 * int(m[2])), longer, count=1
    )
    assert longer != text
    assert late_by(piece.music, Witness(longer.encode()))


def chord_lick() -> str:
    rows = "".join(f"{Chord.of('Eb', name).symbol} | 6:0 - - - - - - -\n" for name in QUALITIES)
    return f"key: C major\n\n{rows}"


def misread_chords(text: bytes) -> list[str]:
    """Qualities of which music21 makes other notes than we do."""
    score = music21_witness.parse(text)
    read_ = list(score.parts[0].recurse().getElementsByClass(music21.harmony.ChordSymbol))
    assert len(read_) == len(QUALITIES)
    return [
        name
        for name, symbol in zip(QUALITIES, read_, strict=True)
        if {pitch.pitchClass for pitch in symbol.pitches} != set(Chord.of("Eb", name).semitones)
    ]


def test_every_quality_is_read() -> None:
    """music21 makes of every kind and its degrees the notes of our table."""
    assert set(KINDS) == set(QUALITIES)
    text = file(read(chord_lick()), "musicxml")
    assert not misread_chords(text)
    assert misread_chords(text.replace(b"<degree-alter>1<", b"<degree-alter>-1<"))
    suffixes = [kind.get("text") for kind in etree.fromstring(text).iter("kind")]
    assert suffixes == [Chord.of("Eb", name).display.removeprefix("E♭") for name in QUALITIES]


def test_bass_and_no_chord() -> None:
    """A slash bass and N.C. are read."""
    text = file(read("key: C major\n\nD7/F# | 6:2 - - - - - - -\nN.C. | 6:0 - - - - - - -\n"), "musicxml")
    first, second = music21_witness.parse(text).parts[0].recurse().getElementsByClass("Harmony")
    assert (first.root().name, first.bass().name) == ("D", "F#")
    assert isinstance(second, music21.harmony.NoChord)


def played(text: bytes) -> list[int]:
    """The bars as music21 unfolds them; none where the signs do not go together."""
    part = music21_witness.parse(text).parts[1]
    if music21.repeat.Expander(part).isExpandable() is False:
        return []
    expanded = part.expandRepeats()
    return [int(measure.number) for measure in expanded.getElementsByClass("Measure")]


@pytest.mark.parametrize("name", ["repeats", "with-a-pickup", "endings-for-two"])
def test_repeats_and_endings_unfold_as_played(name: str) -> None:
    """music21 plays the bars in the order of the model."""
    music = pieces()[f"tests/courses/every-sign: {name}"].music
    text = document(f"tests/courses/every-sign: {name}")
    assert len(music.order) > 1
    assert played(text) == [music.bars[index].number for index in music.order]
    if b'<repeat direction="backward"' in text:
        assert played(re.sub(rb'<repeat direction="backward"[^>]*>', b"", text)) != played(text)


def marks(text: bytes) -> Counter[str]:
    """How often each sign of the hands stands on a staff of its own, or on one of two."""
    counted: Counter[str] = Counter()
    for note in etree.fromstring(text).iter("note"):
        staff = note.findtext("staff")
        for mark in note.iterfind("notations//*"):
            type_ = mark.get("type")
            counted[f"{mark.tag}{'' if type_ in (None, 'single', 'upright') else '-' + type_}@{staff}"] += 1
        head = note.find("notehead")
        if head is not None and note.find("tie[@type='stop']") is None:
            counted[f"{head.text}@{staff}"] += 1
    return counted


def expected(music: Music) -> dict[str, int]:
    """The same from the model."""
    sounds = [s for voice in exchanged.voices(music) for _, _, s in voice]
    tones = [t for s in sounds for t in s.tones]
    links = Counter(
        t.link
        for s in sounds
        for t in s.tones
        if t.string not in {g.string for grace in s.grace for g in grace.tones}
    )
    for sound in sounds:
        for number, grace in enumerate(sound.grace):
            after = [t for later in (*sound.grace[number + 1 :], sound) for t in later.tones]
            links[grace.leads] += sum(any(t.string == a.string for a in after) for t in grace.tones)
    signs = Counter(entry.rstrip("0123456789") for s in sounds for entry in s.signs)
    moves = [bend for t in tones for bend in t.bends]
    moves += [t.head.bend for t in tones if isinstance(t.head, Late) and t.head.bend not in t.bends]
    slid = [s.slide_in for s in sounds for _ in s.tones]
    out = [s.slide_out for s in sounds for _ in s.tones]
    return {
        "hammer-on-start@2": links[JoinKind.HAMMER],
        "hammer-on-stop@2": links[JoinKind.HAMMER],
        "pull-off-start@2": links[JoinKind.PULL],
        "slide-start@1": links[JoinKind.SLIDE] + links[JoinKind.SHIFT],
        "slide-stop@2": links[JoinKind.SLIDE] + links[JoinKind.SHIFT],
        "bend@1": len(moves),
        "bend@2": len(moves),
        "pre-bend@2": sum(bend.kind is BendKind.PRE for bend in moves),
        "release@2": sum(bend.kind is BendKind.RELEASE for bend in moves),
        "tap@2": sum(type(t.head).__name__ in ("Tapped", "Hammered") for t in tones),
        "natural@2": sum(isinstance(t.head, Harmonic) and not t.head.fret for t in tones),
        "diamond@1": sum(isinstance(t.head, Harmonic) for t in tones),
        "scoop@1": slid.count(Slide.RISING),
        "plop@2": slid.count(Slide.FALLING),
        "doit@1": out.count(Slide.RISING),
        "falloff@2": out.count(Slide.FALLING),
        "accent@1": sum(s.accent for s in sounds),
        "staccato@1": sum(s.short for s in sounds),
        "up-bow@1": sum(s.stroke == "u" for s in sounds),
        "down-bow@1": sum(s.stroke == "d" for s in sounds),
        "fermata@1": signs["fermata"],
        "trill-mark@1": signs["trill"],
        "fingering@1": sum(t.finger is not None for t in tones),
        "pluck@1": sum(t.hand not in (None, "P") for t in tones),
        "wavy-line-start@2": sum(t.vibrato or "wide" in s.signs for s in sounds for t in s.tones),
        "wavy-line-stop@2": sum(t.vibrato or "wide" in s.signs for s in sounds for t in s.tones),
    }


def test_every_sign_of_the_data_stands_in_the_file() -> None:
    """As many hammer-ons, bends, strokes … as the model has, in every piece; each kind occurs."""
    total: Counter[str] = Counter()
    for name in NAMES:
        wanted, found = expected(pieces()[name].music), marks(document(name))
        assert {sign: found[sign] for sign in wanted} == wanted, name
        total.update(wanted)
    assert not [sign for sign, count in total.items() if not count]


def test_a_sign_left_out_is_caught() -> None:
    """Without one hammer-on the counts differ."""
    piece = read(PORCH)
    text = file(piece, "musicxml")
    wanted = expected(piece.music)
    assert all(marks(text)[sign] == count for sign, count in wanted.items())
    less = re.sub(rb"<hammer-on[^>]*>H</hammer-on>", b"", text, count=1)
    assert marks(less)["hammer-on-start@2"] != wanted["hammer-on-start@2"]


BENDS = [
    ("2:15b17 - - - - - - -", ["2"]),
    ("2:15b15.5 - - - - - - -", ["0.5"]),
    ("2:15b17r15 - - - - - - -", ["2", "-2"]),
    ("2:15pb17 - - - 2:r15 - - -", ["2", "-2"]),
    ("2:15b16 - - - 2:b17 - - -", ["1", "1"]),
    ("3:0nb2 - - - - - - -", ["2"]),
]


@pytest.mark.parametrize(("slots", "alters"), BENDS)
def test_bends_in_half_steps(slots: str, alters: list[str]) -> None:
    """``bend-alter`` counts half steps; a release is negative (MusicXML 4.0, ``bend-alter``)."""
    root = etree.fromstring(file(read(f"key: A minor\n\nAm | {slots}\n"), "musicxml"))
    tab = [note for note in root.iter("note") if note.findtext("staff") == "2"]
    assert [found.text for note in tab for found in note.iter("bend-alter")] == alters
    assert all(note.findtext(".//pitch/octave") for note in tab)


@pytest.mark.parametrize("word", [sign.word for sign in TABLE])
def test_every_word_of_the_signs_row_is_written(word: str) -> None:
    """A lick with the word has something that the lick without it has not."""
    sign = next(sign for sign in TABLE if sign.word == word)
    slot = "6:x" if word == "scrape" else "6:5"
    lick = f"key: A minor\n\nAm | {slot} - - - 5:5 - - -\n"
    with_it = file(read(f"{lick}   signs | {sign.example} *\n"), "musicxml")
    assert len(with_it) > len(file(read(lick), "musicxml"))


def test_the_words_of_the_author_are_text() -> None:
    """Title, author, rights and source come back as they are, whatever signs they hold."""
    said = Credits('<b>"&amp;\u0007 ♭', "A & B", "© <me>", "]]> 1883", own=False)
    text = file(read(PORCH), "musicxml", said)
    assert valid(text)
    root = etree.fromstring(text)
    found = [root.findtext(path) for path in ("work/work-title", "identification/creator")]
    assert found == ['<b>"&amp; ♭', "A & B"]
    assert root.findtext("identification/source") == "]]> 1883"
    assert root.find("identification/creator[@type='arranger']") is not None


def test_equal_orders_are_equal_bytes() -> None:
    """Nothing of the clock or of chance stands in a file."""
    from lickwright.exchange import links

    piece = read(PORCH)
    first = {name: file(piece, name) for name in ("musicxml", "midi", "mei")}
    links.sheet.cache_clear()
    assert first == {name: file(read(PORCH), name) for name in ("musicxml", "midi", "mei")}
    assert not re.search(rb"20[0-9][0-9]", first["musicxml"] + first["mei"])


def of(text: str, path: str) -> list[str | None]:
    return [found.text for found in etree.fromstring(file(read(text), "musicxml")).iterfind(path)]


@pytest.mark.parametrize(
    ("fields", "path", "wanted"),
    [
        ("capo: 2", ".//capo", ["2"]),
        ("tuning: D2 A2 D3 G3 B3 E4", ".//staff-tuning[@line='1']/tuning-step", ["D"]),
        ("meter: 6/8\nstep: 3/8", ".//time/beats", ["6"]),
        ("feel: shuffle", ".//swing/first", ["2"]),
        ("tempo: half = 60", ".//per-minute", ["60"]),
    ],
)
def test_what_stands_at_the_head(fields: str, path: str, wanted: list[str]) -> None:
    """Capo, tuning, meter, swing and tempo."""
    bar = "5:0 4:0" if "6/8" in fields else "5:0 4:0 5:0 4:0 5:0 4:0 5:0 4:0"
    assert of(f"key: A major\n{fields}\n\nA | {bar}\n", path) == wanted


def test_dead_notes_and_taps() -> None:
    """An x for a head, the hand of a tap."""
    lick = "key: A major\n\nA | 5:x - 2:t12 - 2:h5 - 5:0 -\n"
    assert of(lick, ".//notehead") == ["x", "x"]
    root = etree.fromstring(file(read(lick), "musicxml"))
    assert [tap.get("hand") for tap in root.iter("tap")] == ["right", "left"]
    assert isinstance(read(lick).music.bars[0].upper.sounds[0].tones[0].head, Dead)
    assert isinstance(read(lick).music.bars[0].upper.sounds[1].tones[0].head, Tapped)
