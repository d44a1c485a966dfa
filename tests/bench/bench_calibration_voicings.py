"""Guitar voicings of an open data set against our table of chords: which do not spell their name.

Install the data by hand: ``npm pack @tombatossals/chords-db@0.5.1`` (MIT), unpack it, and give the path of
``lib/guitar.json`` in it. Prints how many voicings spell their name, what disagrees, and whether the entries
that its maintainers corrected afterwards are among them.
"""

import argparse
import sys
from collections import Counter
from pathlib import Path

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS / "analysis"), str(TESTS / "corpus"), str(TESTS.parent / "builder")]

from calibration.voicings import KNOWN_BAD, Voicing, read_voicings  # noqa: E402


def main() -> None:
    """Print all figures."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("data", type=Path, help="guitar.json of the data set")
    arguments.add_argument("--list", action="store_true", help="every voicing that disagrees")
    asked = arguments.parse_args()
    if not asked.data.is_file():
        print(f"{asked.data}: not there; nothing is measured")
        return
    voicings = read_voicings(asked.data)
    print(f"{len(voicings)} voicings; {sum(v.said == v.midi for v in voicings)} with the pitches of our neck")
    unread = Counter(v.suffix for v in voicings if v.chord is None)
    print(f"no symbol of ours: {sum(unread.values())} ({', '.join(f'{s} {n}' for s, n in unread.items())})")
    read = [v for v in voicings if v.chord is not None]
    kinds = {voicing: _kind(voicing) for voicing in read}
    for kind, number in Counter(kinds.values()).most_common():
        print(f"  {number} of {len(read)}: {kind}")
    for voicing, kind in kinds.items():
        if "foreign note" in kind or (asked.list and "spells" not in kind):
            print(f"    {_line(voicing)}: {kind}")
    bad = [voicing for voicing in read if (voicing.key, voicing.suffix, voicing.frets) in KNOWN_BAD]
    found = [voicing for voicing in bad if not kinds[voicing].startswith("spells")]
    print(
        f"entries that their maintainers corrected or withdrew: told {len(found)} of {len(KNOWN_BAD)}",
        end=", ",
    )
    print(f"{sum('foreign' in kinds[voicing] for voicing in bad)} by their notes, the others by their bass")
    for voicing in bad:
        print(f"    {_line(voicing)}: {kinds[voicing]}")


def _kind(voicing: Voicing) -> str:
    assert voicing.chord is not None
    if voicing.suffix == "alt":
        return "alt, meant as a major triad with a flat fifth" if voicing.missing else "spells its name"
    if voicing.foreign:
        return "has the eleventh of the plain stack" if voicing.stacked else "a foreign note"
    if 0 in voicing.missing:
        return "without its root"
    if voicing.missing:
        return "lacks a note of its name other than the fifth"
    return "another bass than the name's" if voicing.inverted else "spells its name"


def _line(voicing: Voicing) -> str:
    chord = voicing.chord
    assert chord is not None
    frets = " ".join("x" if fret < 0 else str(fret) for fret in voicing.frets)
    labels = " ".join(chord.degree_of(chord.root.semitone + above) for above in sorted(voicing.foreign))
    foreign = f", foreign {labels}" if labels else ""
    spells = f", spells {voicing.spells}" if voicing.spells else ""
    return f"{voicing.key} {voicing.suffix} {frets}{foreign}{spells}"


if __name__ == "__main__":
    main()
