"""Signs that look like others or cannot be seen: other digits, other alphabets, zero-width signs."""

from __future__ import annotations

import unicodedata

from lickwright.reading.collector import quote

_LOOKS = {
    **dict(zip("хрѕТАВСЕКМОНаогс", "xpsTABCEKMOHaorc", strict=True)),
    **dict(zip("οΑΒΕΚΜΝΟΡΤΧ", "oABEKMNOPTX", strict=True)),
    "×": "x",
    "∕": "/",
    "∙": ".",
    "＋": "+",
}
_QUOTES = "’‘′´`"
_HIDDEN = ("Cf", "Cc", "Mn", "Co", "Cn")


def plainly(text: str) -> str:
    """Return a text with its foreign signs as the plain ones they look like, without hidden ones."""
    return "".join(_plain(sign) for sign in text)


def explain_foreign(text: str) -> str:
    """Return what is to be said of the first sign that is hidden or foreign, empty when there is none."""
    for sign in text:
        plain = _plain(sign)
        if plain == sign:
            continue
        name = unicodedata.name(sign, f"number {ord(sign):X}").lower()
        shown = quote("".join(s for s in text if _plain(s)), 24) or "a slot"
        if not plain:
            return f"{shown} holds a hidden sign, {name}"
        return f"{shown} holds a foreign sign: {name} stands where a plain {plain} is meant"
    return ""


def straighten_quotes(text: str) -> str:
    """Return a text with the straight quotation mark in the place of curly ones."""
    for sign in _QUOTES:
        text = text.replace(sign, "'")
    return text


def _plain(sign: str) -> str:
    if sign.isascii() and sign.isprintable():
        return sign
    kind = unicodedata.category(sign)
    if kind in _HIDDEN:
        return ""
    if kind == "Nd":
        return str(unicodedata.digit(sign))
    if sign in _LOOKS:
        return _LOOKS[sign]
    wide = unicodedata.normalize("NFKC", sign)
    is_wide = unicodedata.name(sign, "").startswith("FULLWIDTH") and wide.isascii()
    return wide if is_wide else sign
