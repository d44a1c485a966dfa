"""One XML element as text: the only place where MEI is escaped."""

from __future__ import annotations

from xml.sax.saxutils import escape


def tag(name: str, content: str = "", /, **attributes: str | int | None) -> str:
    """Return an element.

    Args:
        name: Of the element.
        content: Finished XML.
        attributes: ``None`` leaves an attribute out; ``xml_id`` is ``xml:id``, ``__`` a full stop.
    """
    written = "".join(
        f' {_ATTRIBUTES.get(key) or _name(key)}="{value if type(value) is int else _quoted(str(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{written}>{content}</{name}>" if content else f"<{name}{written}/>"


def text(words: str) -> str:
    """Return words as XML text, without what XML forbids."""
    return escape(printable(words))


def printable(words: str) -> str:
    """Return words without what XML forbids."""
    return "".join(char for char in words if char >= " " and char not in "\ufffe\uffff")


_ATTRIBUTES: dict[str, str] = {"xml_id": "xml:id"}


def _name(key: str) -> str:
    name = _ATTRIBUTES[key] = key.rstrip("_").replace("__", ".")
    return name


def _quoted(value: str) -> str:
    return escape(value, {'"': "&quot;"}) if any(char in value for char in '&<>"') else value
