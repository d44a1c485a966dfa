"""Sheets and scripts as they are shipped: comments and blanks taken out, nothing renamed."""

from __future__ import annotations

from rcssmin import cssmin
from rjsmin import jsmin


def pack(name: str, data: bytes) -> bytes:
    """Return a sheet or a script packed; what is not UTF-8 text, or neither of the two, as it is."""
    try:
        text = data.decode()
    except UnicodeDecodeError:
        return data
    if name.endswith(".css"):
        return str(cssmin(text)).encode()
    return str(jsmin(text)).encode() if name.endswith(".js") else data
