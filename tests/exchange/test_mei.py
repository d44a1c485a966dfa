"""MEI files against the published schema and Verovio."""

import re
from functools import cache

import pytest
import schemas
from exchanged import SETTINGS, file, pieces, read, soundings
from lxml import etree
from verovio_witness import Witness, late_by

from lickwright.analysis.notation.ids import local_id
from lickwright.model.music import Music
from lickwright.model.orders import Credits
from lickwright.model.strike import Fretted, Late

NAMES = sorted(pieces())
SHARES = [pytest.param(NAMES[::3], id="a third"), pytest.param(NAMES, id="all", marks=pytest.mark.slow)]
NS = {"m": "http://www.music-encoding.org/ns/mei"}
PORCH = """title: Porch step
key: A major
capo: 2

|: A7 D7 | 5:0 5:4 4:2 s 4:4 2:8b10r8 - 2:8b10~! -
   rh | d u d * u d
Bbm7b5 | 3:2 h 3:4 4:x 4:2 ring[(4:0 5:4 5:3)/2 5:4 5:5]
1.-2. D | g(2:3) 2:5 - - - 6:5+5:7+4:7^ - - - :|
"""


@cache
def document(name: str) -> bytes:
    return file(pieces()[name], "mei")


def valid(text: bytes) -> bool:
    return bool(schemas.mei().validate(etree.fromstring(text)))


@pytest.mark.parametrize("names", SHARES)
def test_every_file_is_valid(names: list[str]) -> None:
    """The schema of MEI 5.1 for common notation accepts the file of every piece."""
    wrong = {name: str(schemas.mei().error_log) for name in names if not valid(document(name))}
    assert not wrong


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('pname="a"', 'pname="h"'),
        ("<harm", "<harmony"),
        ('tab.fret="4"', 'tab.fret="four"'),
        ('dur="8"', 'dur="9"'),
        ("<tuning>", "<tuning><note/>"),
    ],
)
def test_the_schema_refuses(old: str, new: str) -> None:
    """Planted values that are none, elements that are none or out of place, are refused."""
    text = file(read(PORCH), "mei").decode()
    assert old in text
    assert valid(text.encode())
    assert not valid(text.replace(old, new, 1).replace("</harm>", "</harmony>", old == "<harm").encode())


@pytest.mark.parametrize("names", SHARES)
def test_verovio_reads_every_file_without_a_word(names: list[str]) -> None:
    """Verovio loads and draws every piece, says nothing, and begins every note when the music says.

    Of a tuplet in another it counts the inner ratio alone, so notes after one come late.
    """
    said, late = {}, {}
    for name in names:
        witness = Witness(document(name))
        assert witness.loaded, name
        if witness.said:
            said[name] = witness.said
        nested = etree.fromstring(document(name)).find(".//m:tuplet//m:tuplet", NS) is not None
        if not nested and (found := late_by(pieces()[name].music, witness)):
            late[name] = found
    assert not said
    assert not late


def test_verovio_would_speak() -> None:
    """An element it does not know, and a duration that is wrong, are noticed."""
    piece = read(PORCH)
    text = file(piece, "mei").decode()
    assert Witness(
        text.replace("<measure", "<measure><bend startid='#x'/></measure><measure", 1).encode()
    ).said
    longer = re.sub(r'(xml:id="s1-1u1"[^>]*dur=")8"', r'\g<1>4"', text)
    assert longer != text
    assert late_by(piece.music, Witness(longer.encode()))


def off_pitch(music: Music, text: bytes) -> list[str]:
    """Notes of the tab to which Verovio gives another pitch than string and fret have."""
    witness = Witness(text)
    wrong = []
    for bar in music.bars:
        for sound in (sound for line in bar.lines for sound in line.sounds):
            for k, tone in enumerate(sound.tones, 1):
                name = f"t{local_id(sound.address, k)}"
                fret = tone.fret if isinstance(tone.head, Fretted | Late) else None
                if fret is not None and witness.pitch(name) != music.guitar.midi(tone.string, fret):
                    wrong.append(name)
    return wrong


@pytest.mark.parametrize("name", [name for name in NAMES if "every-sign" in name and "@" not in name][::3])
def test_frets_sound_under_the_tuning(name: str) -> None:
    """Tuning, capo, string and fret make the pitches of the model: no fret stands for something else."""
    assert not off_pitch(pieces()[name].music, document(name))


def test_a_wrong_fret_is_caught() -> None:
    """One fret off is noticed; the capo is in the tuning."""
    piece = read(PORCH)
    text = file(piece, "mei")
    assert not off_pitch(piece.music, text)
    assert off_pitch(piece.music, text.replace(b'tab.fret="4"', b'tab.fret="5"'))


def test_no_fret_stands_for_something_else() -> None:
    """As many digits as there are tones and tied pieces, each with its own fret; a dead note's is 0."""
    for name in NAMES:
        music = pieces()[name].music
        tab = etree.fromstring(document(name)).iterfind(".//m:tabGrp/m:note", NS)
        tied = set(re.findall(r'<tie startid="[^"]*" endid="#s([^"]*)"', document(name).decode()))
        frets = sorted(
            (int(note.get("tab.course", "")), int(note.get("tab.fret", "0")))
            for note in tab
            if note.get("{http://www.w3.org/XML/1998/namespace}id", "")[1:] not in tied
        )
        assert frets == sorted((found.string, found.fret) for found in soundings(music)), name


def test_chord_symbols_and_title() -> None:
    """Chords as printed; the author's words are text."""
    root = etree.fromstring(file(read(PORCH), "mei", Credits("<i>&", "A & B", "© me", "1883")))
    assert [harm.text for harm in root.iter("{*}harm")] == ["A7", "D7", "B♭m7♭5", "D"]
    assert root.findtext(".//m:title", namespaces=NS) == "<i>&"
    assert root.findtext(".//m:useRestrict", namespaces=NS) == "© me"
    assert SETTINGS.guitar.capo == 0
