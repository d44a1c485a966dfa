r"""Edits put into a file as its author keeps it: byte order mark and line ends stay what they are.

Reading unifies line ends to ``\n`` and drops the mark; the places of edits count in that text.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from lickwright.findings import Edit

_SIGN = re.compile(r"\r\n|[\s\S]")
_END = re.compile(r"\r\n|\r|\n")
_MARK = b"\xef\xbb\xbf"


def apply_edits(text: str, edits: Sequence[Edit]) -> str:
    """Return a text as read with edits of its source put in."""
    for edit in sorted(edits, key=lambda edit: (edit.span.start, edit.span.end), reverse=True):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text


def rewrite(data: bytes, edits: Sequence[Edit]) -> bytes | None:
    """Return the bytes of a file with edits put in; None when the edits are of another text.

    Args:
        data: As the file stands on the disk.
        edits: Places in its text as read; what they put in takes the line ends most used in the file.
    """
    try:
        raw = data.removeprefix(_MARK).decode()
    except UnicodeDecodeError:
        return None
    text = _END.sub("\n", raw)
    if any(edit.span.source.text != text for edit in edits):
        return None
    ends = Counter(_END.findall(raw))
    end = ends.most_common(1)[0][0] if ends else "\n"
    places = [*(found.start() for found in _SIGN.finditer(raw)), len(raw)]
    for edit in sorted(edits, key=lambda edit: (edit.span.start, edit.span.end), reverse=True):
        put = edit.text.replace("\n", end)
        raw = raw[: places[edit.span.start]] + put + raw[places[edit.span.end] :]
    return (_MARK if data.startswith(_MARK) else b"") + raw.encode()
