"""Every form of the language stands in the guide: found in the model, not in the words."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from pathlib import Path

import click
import pytest
from guide_examples import LESSONS, try_example
from guide_forms import list_forms

from lickwright.checks.handbook import limits_table
from lickwright.checks.limits import LIMITS
from lickwright.cli.answer import answer
from lickwright.cli.errata import errata
from lickwright.cli.proof import proof
from lickwright.cli.sign import sign
from lickwright.model.bar import ROW_KINDS
from lickwright.model.course import LEVELS, STYLES
from lickwright.model.fields import CLAIM_KINDS, FEELS, PICKING_STYLES
from lickwright.model.slots import JoinKind
from lickwright.reading import chorus, excerpt, lick, neck, open_strings, progression, scale
from lickwright.reading.blocks import KINDS
from lickwright.reading.manifest import read_manifest
from lickwright.reading.manifest_keys import SECTIONS, UNIT
from lickwright.terms.signs import WORDS as SIGNS
from lickwright.text import Source
from lickwright.theory.key import MODES

FORMS = f"""
block Lick; block Progression; block Chorus; block Excerpt; block ScaleBlock; block NeckBlock
block OpenStringsBlock; block TunerBlock
Strike; Hold; Rest; Group; Join; Grace; Opening; Closing
in a group Strike; in a group Hold; in a group Rest; in a group Group; in a group Join
group /1; group /N; grace one; grace many; grace head Dead; join over the bar line
{"; ".join(f"join {kind.value}" for kind in JoinKind)}
bracket ring; bracket mute; bracket pos fret; bracket pos open
head Fretted; head Dead; head Tapped; head Hammered; head Harmonic; head Late
harmonic open; harmonic stopped; harmonic between frets; late b; late r
bend b; bend b.5; bend b r; bend b r b; bend pb; bend pb r; bend nb; bend in a chord
chord; slide in /; slide in \\; slide out /; slide out \\; accent; short; spread; shape; vibrato
row low; row rh *; row signs *; row names *
{"; ".join(f"row {kind}" for kind in ROW_KINDS)}
row rh chord; row lh chord; row names chord; row degrees chord; row signs chord
low row rh; low row lh; low row names
rh d; rh u; rh P; rh p; rh i; rh m; rh a; lh 0; lh 1; lh 2; lh 3; lh 4
{"; ".join(f"signs {sign}" for sign in SIGNS)}
margin meter; margin |:; margin :|; margin x; margin ending; margin ending of two times; margin empty
margin chord; margin chords; margin @; margin @&; margin stop; margin N.C.
cell margin meter; cell margin |:; cell margin :|; cell margin x; cell margin ending; cell margin empty
cell margin chords; cell margin @; cell margin stop
over progression all; over progression bars; over chords one; over chords many
change Strike; change Rest; stet True True; position True; position False
tempo None; tempo 1; tempo 3/2
chorus rest; chorus times True; chorus times False
excerpt whole; excerpt pickup bars many; excerpt sounds many; excerpt low sounds many
link sounds one; link sounds many; link low sounds one
neck chord; neck scale; neck notes; neck of; neck labels names; neck labels degrees
neck frets True strings True
{"; ".join(f"claim {kind}" for kind in CLAIM_KINDS)}
picking alternate d; picking alternate u
{"; ".join(f"picking {s} None" for s in PICKING_STYLES if s != "alternate")}
word own; word traditional; word open; word closed
"""
"""What must stand in the guide; entries are parted by semicolons and lines."""

FIELDS = {
    "Lick": (*lick.FIELDS, "shape"),
    "Progression": tuple(progression.FIELDS),
    "Chorus": tuple(chorus.FIELDS),
    "Excerpt": tuple(excerpt.FIELDS),
    "ScaleBlock": tuple(scale.FIELDS),
    "NeckBlock": tuple(neck.FIELDS),
    "OpenStringsBlock": tuple(open_strings.FIELDS),
}
TOLD_ONLY = {
    "Lick take",  # the guide travels with no recording
    "Progression stet",  # a stet needs a finding to let stand; one is shown, in a lick
    "Chorus stet",
    "ScaleBlock stet",
}


def wanted() -> list[str]:
    """Return every form that the guide must show."""
    forms = [form.strip() for line in FORMS.strip().splitlines() for form in line.split(";")]
    fields = [f"{kind} {name.replace(' ', '_')}" for kind, names in FIELDS.items() for name in names]
    return forms + [f"field {field}" for field in fields if field not in TOLD_ONLY]


def test_every_form_is_shown_in_real_music(guide):
    """Every slot, join, bend, sign, row, margin, field and block."""
    shown = list_forms(guide.course)
    assert [form for form in wanted() if form not in shown] == []


@pytest.mark.parametrize(
    ("topic", "missed"),
    [
        ("bends", "bend pb r"),
        ("rows", "signs scrape"),
        ("groups", "in a group Group"),
        ("keys", "block ScaleBlock"),
    ],
)
def test_a_form_that_is_left_out_is_missed(guide, topic, missed):
    """A planted fault: without one of its pages the guide shows too little."""
    units = tuple(
        replace(unit, lessons=tuple(lesson for lesson in unit.lessons if lesson.name != topic))
        for unit in guide.course.units
    )
    assert missed in wanted()
    assert missed not in list_forms(replace(guide.course, units=units))


@pytest.mark.parametrize("feel", FEELS)
def test_every_feel_is_heard(guide, feel):
    """In a lick or in a progression."""
    assert feel in {getattr(block, "feel", None) for block in guide.course.blocks} | {"straight"}
    assert feel in words("fields")


def words(topic: str) -> str:
    """Return the text of a page of the guide."""
    return (LESSONS / f"{topic}.md").read_text(encoding="utf-8")


def listing(topic: str, start: str) -> str:
    """Return the code block of a page that begins with a word."""
    return next(part for part in words(topic).split("```") if part.lstrip().startswith(start))


def test_the_tables_of_words_are_complete():
    """Block kinds, fields, signs, modes and scales, each in its table."""
    kinds = listing("blocks", "lick NAME")
    assert [kind for kind in KINDS if f"\n{kind} " not in kinds] == []
    fields = listing("fields", "title")
    assert [name for name in lick.FIELDS if f"\n{name} " not in fields] == []
    assert "\nshape G " in fields
    assert [sign for sign in SIGNS if sign not in listing("rows", "rh |")] == []
    modes = listing("keys", "major, ionian").replace(",", " ").split()
    assert [mode for mode in MODES if mode not in modes] == []
    degrees = " ".join(listing("keys", "major, ionian").split())
    assert [mode for mode, row in MODES.items() if row not in degrees] == []
    assert [kind for kind in scale.KINDS if f"G {kind} " not in listing("keys", "G major pentatonic")] == []
    assert [name for name in scale.FIELDS if name not in listing("keys", "scale  ")] == []


def test_the_manifest_is_shown_with_every_key_and_its_true_default():
    """What the page shows reads without a finding, and says what holds when a key is left out."""
    text = listing("manifest", "[course]")
    shown, findings = read_manifest(Source("course.toml", text))
    assert findings == ()
    data = tomllib.loads(text)
    keys = {
        name: set(section.keys) for name, section in SECTIONS.items() if name not in ("promises", "limits")
    }
    assert {name: set(data[name]) for name in keys} == keys
    assert set(data["unit"][0]) == set(UNIT.keys)
    assert set(data["promises"]) <= set(SECTIONS["promises"].keys)
    assert [name for name in SECTIONS["promises"].keys if f"`{name}`" not in words("manifest")] == []
    assert set(data["limits"]) <= set(LIMITS)
    least = '[course]\ntitle = "T"\nauthor = "A"\n[[unit]]\ntitle = "U"\nlessons = ["a.md"]\n'
    plain, findings = read_manifest(Source("course.toml", least))
    assert findings == ()
    assert shown is not None
    assert plain is not None
    assert replace(shown.settings, limits=()) == plain.settings
    assert shown.language == plain.language
    assert [word for word in (*STYLES, *LEVELS) if word not in text] == []


def test_every_limit_is_shown_as_it_is():
    """The tables of the page are those made from the thresholds; where they differ, copy what is printed."""
    assert words("limits").endswith(f"\n\n{limits_table()}\n"), limits_table()
    for name, limit in LIMITS.items():
        assert f"| `{name}` | {limit.value:g} {limit.unit} |" in words("limits")
        assert all(f"`{rule}`" in words("limits") for rule in limit.rules)


def test_the_limits_that_are_set_read(tmp_path):
    """What the page sets anew is taken by a course."""
    shown = listing("limits", "toml").removeprefix("toml")
    found = try_example("# Words\n\nWords.\n", tmp_path / "course", "")
    assert found.course is not None
    manifest = found.course.manifest.text + shown
    course, findings = read_manifest(Source("course.toml", manifest))
    assert findings == ()
    assert course is not None
    taken = {name for name, _ in course.settings.limits}
    assert taken == set(tomllib.loads(shown)["limits"])
    assert taken <= set(LIMITS)


def test_level_and_style_have_every_word():
    """Each word of either, and every rule that reads one of them."""
    text = words("level-and-style")
    assert [word for word in (*STYLES, *LEVELS) if f"`{word}`" not in text and f'"{word}"' not in text] == []
    assert [rule for rule in ("speed/strokes", "course/first-use", "harmony/unexplained", "harmony/clash",
                              "open-strings/chromatic") if f"`{rule}`" not in text] == []  # fmt: skip


def test_every_part_of_the_proof_sheet_is_told():
    """What the page names in bold is a head of the sheet, and every head of the sheet is named."""
    template = (Path(__file__).parents[2] / "themes/press/templates/proof_sheet.html").read_text("utf-8")
    heads = set(re.findall(r"<h2>([^<]+)</h2>", template)) - {"For the author", "Drafts"}
    named = set(re.findall(r"\*\*([^*]+)\*\*", words("proof-sheet")))
    assert {"Queries as text" if head == "Queries for the author" else head for head in heads} == named
    assert all(f">{name}<" in template for name in named)


@pytest.mark.parametrize("command", [proof, errata, answer, sign], ids=lambda command: command.name)
def test_every_option_of_an_editor_is_shown(command):
    """Every form of the report and every option of the commands is typed somewhere in the guide."""
    told = "".join(words(topic.stem) for topic in LESSONS.glob("*.md"))
    for option in command.params:
        if isinstance(option, click.Option) and "--help" not in option.opts:
            assert any(name in told for name in option.opts if name.startswith("--")), option.opts
            if isinstance(option.type, click.Choice) and command == "proof":
                assert [
                    form for form in option.type.choices if form != "text" and f"--format {form}" not in told
                ] == []
