"""Packed sheets and scripts say the same in fewer bytes."""

import re

from lickwright.pages.packing import pack
from lickwright.pages.theme import read_theme


def test_a_sheet_keeps_its_rules() -> None:
    """Comments and blanks go; what a blank means between words or in text stays."""
    sheet = (
        b"/* why */\na b > c { margin: 0 calc(1px + 2px) }\n@media print { a::after { content: ' / ' } }\n"
    )
    assert pack("a.css", sheet) == b"a b>c{margin:0 calc(1px + 2px)}@media print{a::after{content:' / '}}"


def test_a_script_keeps_its_lines_where_they_end_a_statement() -> None:
    """A line end that ends a statement stays one; a text keeps what looks like a comment."""
    packed = pack("a.js", b"'use strict'\nlet a = 1 // one\nlet b = '// two'\n")
    assert packed.split(b"\n") == [b"'use strict'", b"let a=1", b"let b='// two'"]


def test_our_own_theme_loses_no_selector_or_text() -> None:
    """Every class, id and quoted text of the sheets and scripts is in the packed ones."""
    for name, data in read_theme().assets.items():
        packed = pack(name, data).decode()
        bare = re.sub(r"/\*.*?\*/", "", data.decode(), flags=re.DOTALL)
        names = set(re.findall(r"[.#][a-z][\w-]+(?=[^{}]*\{)", bare) if name.endswith(".css") else ())
        assert len(packed) < len(data)
        assert {each for each in names if each not in packed} == set()


def test_other_files_are_left_alone() -> None:
    """A picture, and a sheet that is no text, are shipped as they are."""
    assert pack("a.svg", b"<svg>  </svg>") == b"<svg>  </svg>"
    assert pack("a.css", b"\xff  ") == b"\xff  "
