"""XML elements: where the author's words are made safe for a document."""

from __future__ import annotations

from lxml import etree

_XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
_NAMES: dict[str, str] = {"xml_id": _XML_ID}


def node(
    name: str, /, *content: etree._Element | str | int | None, **attributes: str | int | None
) -> etree._Element:
    """Return an element.

    Args:
        name: Of the element.
        content: Children and text in order; None is left out.
        attributes: None leaves one out; ``xml_id`` is ``xml:id``, ``__`` a full stop, ``_`` inside a hyphen,
            and one at the end is dropped (``type_``).
    """
    made = etree.Element(name)
    for key, value in attributes.items():
        if value is not None:
            made.set(_NAMES.get(key) or _name(key), value if type(value) is str else str(value))
    for part in content:
        if part is None:
            continue
        if isinstance(part, str | int):
            made.text = printable(str(part))
        else:
            made.append(part)
    return made


def printable(words: str) -> str:
    """Return words without what XML forbids."""
    if words.isprintable():  # most are: none of it is
        return words
    return "".join(
        c
        for c in words
        if (c >= " " or c in "\t\n") and not "\ud800" <= c <= "\udfff" and c not in "\ufffe\uffff"
    )


def _name(key: str) -> str:
    name = _NAMES[key] = key.rstrip("_").replace("__", ".").replace("_", "-")
    return name
