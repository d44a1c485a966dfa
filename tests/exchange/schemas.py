"""The published schemas of the formats."""

from __future__ import annotations

import lzma
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from lxml import etree

_STUB = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="{}">{}</xs:schema>"""
_ATTRIBUTE = '<xs:attribute name="{}" type="xs:string"/>'
_IMPORTS = {
    "xml.xsd": ("http://www.w3.org/XML/1998/namespace", "lang space"),
    "xlink.xsd": ("http://www.w3.org/1999/xlink", "href type role title show actuate"),
}
"""The two schemas that MusicXML's imports from the web: no document here has an attribute of theirs."""


class _Stubs(etree.Resolver):
    def resolve(self, system_url: str, _public_id: str, context: Any) -> Any:
        found = _IMPORTS.get(str(system_url).rpartition("/")[2])
        if found is None:
            return None
        namespace, names = found
        text = _STUB.format(namespace, "".join(map(_ATTRIBUTE.format, names.split())))
        return self.resolve_string(text, context)


@cache
def musicxml() -> etree.XMLSchema:
    """MusicXML 4.0's schema (W3C), as the package ``musicxml`` carries it."""
    spec = find_spec("musicxml")
    assert spec is not None
    assert spec.submodule_search_locations
    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(_Stubs())
    folder = Path(spec.submodule_search_locations[0])
    return etree.XMLSchema(etree.parse(folder / "generate_classes" / "musicxml_4_0.xsd", parser))


@cache
def mei() -> etree.RelaxNG:
    """MEI 5.1's schema for common notation (Music Encoding Initiative, ECL-2.0), packed beside the tests."""
    packed = Path(__file__).with_name("mei-CMN-5.1.rng.xz").read_bytes()
    return etree.RelaxNG(etree.fromstring(lzma.decompress(packed)))
