"""Every rule the reader reports by, with its severity and what the fault is: the complete list.

What needs resolved music (names that exist, bar sums, holds, strings under a join) is
found further up; the reader reports what can be seen in the text alone.
"""

from __future__ import annotations

from lickwright.findings.register import read_register

# id | severity | title
RULES = read_register("""
syntax/block-kind | query | The first word of a fence is nearly a block kind
syntax/block-name | error | A block lacks the name it needs, or has one it does not take
syntax/block-open | error | A fence is never closed
syntax/block-empty | error | A block holds nothing to play or to show
syntax/unknown-field | error | A field that the block does not have
syntax/field-twice | error | A field, a shape or a change given twice
syntax/field-value | error | A field whose value cannot be read
syntax/field-place | error | A field after the first bar
syntax/field-missing | error | A field that the block cannot do without is not there
syntax/line | error | A line that the block has no use for
syntax/missing-blank-line | note | No empty line between the fields and the music
syntax/no-break-space | note | A no-break space where a plain blank is meant
syntax/bar-line | error | A bar without its bar line
syntax/second-bar | error | A second bar on the same line
syntax/margin | error | A margin that cannot be read
syntax/repeat | error | Repeat signs or endings that do not fit together
syntax/slot | error | A slot that is none of the forms
syntax/habit | error | A form from another way of typing music
syntax/string | error | A string that the guitar does not have
syntax/bend | error | A bend that cannot be played as written
syntax/join | error | A hammer-on, pull-off or slide that does not stand between two sounds
syntax/bracket | error | A bracket not opened, not closed, or closed in the wrong order
syntax/bracket-twice | query | A bracket inside another of its own kind
syntax/nesting | error | Brackets and groups nested too deep
syntax/group | error | A group that is not closed, too small, or of an impossible size
syntax/grace | error | Grace notes that do not lead straight to a sound of their bar
syntax/row-place | error | A row with no bar above it
syntax/row-twice | error | The same row twice under one bar
syntax/row-kind | error | The name of a row is not written as it should be
syntax/row-count | error | A row has not as many entries as its bar has sounds
syntax/row-entry | error | An entry that its row does not know
syntax/change | error | A change of a variation that cannot be read or has no place here
syntax/tuning-order | query | A tuning written from the highest string
harmony/chord-symbol | error | A chord symbol that cannot be read
rhythm/chord-beat | error | Chords of a margin that do not share out the beats of the bar
rhythm/step | error | A step that does not divide the meter or the pickup
rhythm/slow-tempo | error | The reduced tempo is not lower than the tempo
rhythm/cut-time-tempo | note | A bare tempo in cut time counts half notes
course/manifest-missing | error | There is no course.toml
course/manifest | error | The manifest is not TOML, or a key's value is not what it should be
course/unknown-key | error | A key that the manifest does not have
course/missing-key | error | A key that the manifest cannot do without is not there
course/missing-file | error | A file that is named but not there
course/unreadable-file | error | A file that cannot be read
course/encoding | error | A file that is not UTF-8
course/missing-picture | error | A picture that is not in pictures/
course/dead-link | error | A link to a lesson that is not there
course/unknown-anchor | query | A link to a heading that the lesson does not have
course/path | error | A path that leaves the course
course/lesson-twice | error | A lesson listed twice
course/unlisted-lesson | note | A lesson file that no unit lists
course/empty-lesson | query | A lesson with nothing in it
course/signatures | error | Signatures that cannot be read
course/duplicate-name | error | A name used for two blocks
course/link | error | A link to notes whose address cannot be read
""")
"""The reader's rules by their ids, in the order of the table."""
