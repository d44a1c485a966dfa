"""Where the keys and values of a TOML text stand: ``tomllib`` gives values only.

A scan that trusts the text to be TOML; on anything else it gives fewer places, never an error.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

Path = tuple[str | int, ...]
Range = tuple[int, int]

_BLANK = re.compile(r"(?:[ \t]+|#[^\n]*|\r?\n)+")
_KEY = re.compile(r"""[ \t]*("(?:[^"\\\n]|\\.)*"|'[^'\n]*'|[A-Za-z0-9_-]+)[ \t]*(\.?)""")
_STRING = re.compile(
    r'''"""(?:[^"\\]|\\.|"(?!""))*"{3,5}|\'\'\'(?:[^']|'(?!''))*'{3,5}|"(?:[^"\\\n]|\\.)*"|'[^'\n]*\'''',
    re.DOTALL,
)
_BARE = re.compile(r"[^,\]}\n#]*")
_DEEPEST = 12


@dataclass(slots=True)
class Places:
    """Places by path, as ``("unit", 0, "lessons", 1)``: of keys, of values, of table headers."""

    keys: dict[Path, Range] = field(default_factory=dict)
    values: dict[Path, Range] = field(default_factory=dict)

    def find(self, path: Path) -> Range:
        """Return the place of a value, else of its key, else of the nearest table around it."""
        for size in range(len(path), 0, -1):
            found = self.values.get(path[:size]) or self.keys.get(path[:size])
            if found:
                return found
        return (0, 0)


def find_places(text: str) -> Places:
    """Return where each key and value of a TOML text stands."""
    scan = _Scan(text)
    scan.run()
    return scan.places


@dataclass(slots=True)
class _Scan:
    text: str
    at: int = 0
    table: Path = ()
    places: Places = field(default_factory=Places)
    counts: dict[Path, int] = field(default_factory=dict)

    def run(self) -> None:
        while self.skip_blanks():
            start = self.at
            if self.text[start] == "[":
                self.read_header()
            else:
                self.read_pair(self.table, 0)
            if self.at == start:
                self.skip_line()

    def skip_blanks(self) -> bool:
        m = _BLANK.match(self.text, self.at)
        if m:
            self.at = m.end()
        return self.at < len(self.text)

    def skip_line(self) -> None:
        end = self.text.find("\n", self.at)
        self.at = len(self.text) if end < 0 else end + 1

    def read_key(self) -> tuple[list[str], Range] | None:
        names: list[str] = []
        start = end = self.at
        while m := _KEY.match(self.text, self.at):
            if not names:
                start = m.start(1)
            end = m.end(1)
            names.append(m[1].strip("\"'"))
            self.at = m.end()
            if not m[2]:
                return names, (start, end)
        return None

    def read_header(self) -> None:
        start = self.at
        array = self.text.startswith("[[", start)
        self.at += 2 if array else 1
        key = self.read_key()
        if key is None:
            self.skip_line()
            return
        path: Path = ()
        for name in key[0]:
            path = (*path, name)
            if path in self.counts and path != tuple(key[0]):
                path = (*path, self.counts[path])
        if array:
            self.counts[path] = self.counts.get(path, -1) + 1
            path = (*path, self.counts[path])
        self.table = path
        self.places.keys[path] = key[1]
        self.skip_line()

    def read_pair(self, table: Path, depth: int) -> None:
        key = self.read_key()
        if key is None or not self.text.startswith("=", self.at):
            return
        self.at += 1
        path = (*table, *key[0])
        self.places.keys[path] = key[1]
        self.read_value(path, depth)

    def read_value(self, path: Path, depth: int) -> None:
        m = re.compile(r"[ \t]*").match(self.text, self.at)
        self.at = m.end() if m else self.at
        start = self.at
        string = _STRING.match(self.text, start)
        if string:
            self.at = string.end()
        elif self.text.startswith(("[", "{"), start) and depth < _DEEPEST:
            self.read_members(path, depth, "]" if self.text[start] == "[" else "}")
        else:
            bare = _BARE.match(self.text, start)
            self.at = bare.end() if bare else start
        end = start + len(self.text[start : self.at].rstrip())
        self.places.values[path] = (start, end)

    def read_members(self, path: Path, depth: int, closing: str) -> None:
        self.at += 1
        number = 0
        while self.skip_blanks():
            sign = self.text[self.at]
            if sign == closing:
                self.at += 1
                return
            if sign == ",":
                self.at += 1
                continue
            before = self.at
            if closing == "]":
                self.read_value((*path, number), depth + 1)
                number += 1
            else:
                self.read_pair(path, depth + 1)
            if self.at == before:
                return
