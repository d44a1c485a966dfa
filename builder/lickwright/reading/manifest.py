"""The manifest, ``course.toml``: every key checked, all faults at once, each at its place."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from lickwright.findings import Edit, Fix
from lickwright.instrument.guitar import Guitar
from lickwright.model.course import Settings
from lickwright.model.fields import Provenance, Tempo
from lickwright.reading.collector import Collector, quote
from lickwright.reading.manifest_keys import SECTIONS, UNIT, Fault, Section
from lickwright.reading.nearest import find_nearest, list_words
from lickwright.reading.toml_places import Path, Places, find_places
from lickwright.text import Source, Span
from lickwright.theory.key import Key, parse_key

if TYPE_CHECKING:
    from lickwright.findings import Finding

NAME = "course.toml"
_AT = re.compile(r"(.*?)\s*\(at (?:line ([0-9]+), column ([0-9]+)|end of document)\)\Z", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Listed:
    """A lesson as the manifest names it, and the place of its name."""

    file: str
    span: Span


@dataclass(frozen=True, slots=True)
class ListedUnit:
    """A unit as the manifest lists it."""

    title: str
    lessons: tuple[Listed, ...]
    drafts: tuple[Listed, ...]


@dataclass(frozen=True, slots=True)
class Manifest:
    """What ``course.toml`` says, defaults filled in.

    Attributes:
        promises: What the course says it holds, by name.
        places: Where each key's value stands: ``course.title``, ``promises.licks``.
    """

    title: str
    author: str
    settings: Settings
    units: tuple[ListedUnit, ...]
    edition: str = ""
    language: str = "en"
    licence: str = ""
    promises: tuple[tuple[str, int], ...] = ()
    places: tuple[tuple[str, Span], ...] = ()


def read_manifest(source: Source) -> tuple[Manifest | None, tuple[Finding, ...]]:
    """Read a manifest.

    Returns:
        The manifest with the default for every value that could not be read, None when
        the text is not TOML; and every fault of the file.
    """
    found = Collector(source)
    try:
        data = tomllib.loads(source.text)
    except RecursionError:
        found.add("course/manifest", "the manifest nests too deep to be read", source.span(0, 0))
        return None, tuple(found.findings)
    except ValueError as error:
        _report_syntax(str(error), source, found)
        return None, tuple(found.findings)
    reader = _ManifestReader(found, find_places(source.text))
    manifest = reader.read(data)
    return manifest, tuple(sorted(found.findings, key=lambda finding: finding.sort_key))


def _report_syntax(error: str, source: Source, found: Collector) -> None:
    m = _AT.match(error)
    offset = max(len(source.text.rstrip()) - 1, 0)
    if m and m[2]:
        number = min(int(m[2]), source.line_column(len(source.text))[0])
        offset = min(source.line_start(number) + int(m[3]) - 1, len(source.text))
    said = (m[1] if m else error)[:1].lower() + (m[1] if m else error)[1:]
    end = min(offset + 1, len(source.text))
    twice = _find_twice(said, source, offset)
    if twice is not None:
        found.add("course/manifest", twice[0], twice[1], hint="keep one")
        return
    hint = 'a key is name = value, with words in quotation marks: title = "Porch licks"'
    found.add(
        "course/manifest", f"the manifest is no TOML: {quote(said, 80)}", source.span(offset, end), hint=hint
    )


def _find_twice(said: str, source: Source, offset: int) -> tuple[str, Span] | None:
    """Return message and place for a key, or a table, given twice; None when it is another fault."""
    if not re.match(r"cannot (?:overwrite|declare|mutate)", said):
        return None
    number = source.line_column(offset)[0]
    line = source.line(number)
    key = re.match(r"\s*(\[{0,2}\s*[\w.\"'-]+\s*\]{0,2})", line)
    if key is None:
        return None
    word = key[1].strip()
    start = source.line_start(number) + key.start(1)
    first = next(
        (n for n in range(number - 1, 0, -1) if re.match(rf"\s*{re.escape(word)}(?![\w.-])", source.line(n))),
        None,
    )
    where = f", on line {first} and on line {number}" if first else f", again on line {number}"
    return f"{word} is given twice{where}", source.span(start, start + len(word))


@dataclass(slots=True)
class _ManifestReader:
    found: Collector
    where: Places
    places: list[tuple[str, Span]] = field(default_factory=list)

    def span(self, path: Path, *, key: bool = False) -> Span:
        at = self.where.keys.get(path) or self.where.keys.get((*path, 0)) if key else None
        return self.found.source.span(*(at or self.where.find(path)))

    def read(self, data: dict[str, Any]) -> Manifest:
        right = (*SECTIONS, "unit")
        sections: dict[str, dict[str, Any]] = {}
        for name, value in data.items():
            if name in SECTIONS:
                sections[name] = self.read_section((name,), SECTIONS[name], value)
            elif name != "unit":
                self.report_unknown((name,), right, "the manifest")
        for name, section in SECTIONS.items():
            self.require((name,), section, data.get(name, {}))
        meant = any(find_nearest(name, right) == "unit" for name in data if name not in right)
        units = self.read_units(data.get("unit"), meant=meant)
        course, guitar = sections.get("course", {}), sections.get("guitar", {})
        settings = Settings(
            key=course.get("key") or _default_key(),
            feel=course.get("feel", "straight"),
            tempo=course.get("tempo") or Tempo(120),
            guitar=Guitar(**{name.replace("-", "_"): value for name, value in guitar.items()}),
            source=course.get("source") or Provenance("own"),
            style=course.get("style", "country"),
            level=course.get("level", "intermediate"),
            limits=tuple(sections.get("limits", {}).items()),
        )
        return Manifest(
            title=course.get("title", ""),
            author=course.get("author", ""),
            settings=settings,
            units=units,
            edition=course.get("edition", ""),
            language=course.get("language", "en"),
            licence=course.get("licence", ""),
            promises=tuple(sections.get("promises", {}).items()),
            places=tuple(self.places),
        )

    def read_section(self, path: Path, section: Section, table: Any) -> dict[str, Any]:
        if not isinstance(table, dict):
            name = path[0]
            self.fault(path, f"{name} is a table of keys, [{name}]", "")
            return {}
        read: dict[str, Any] = {}
        for key, value in table.items():
            check = section.keys.get(key, section.others)
            if check is None:
                self.report_unknown((*path, key), tuple(section.keys), section.said)
                continue
            self.places.append((".".join(map(str, (*path, key))), self.span((*path, key))))
            checked = check(value)
            if isinstance(checked, Fault):
                self.fault(
                    (*path, key), f"{key} {checked.message}", checked.hint, checked.right, checked.rule
                )
                if checked.usable is not None:
                    read[key] = checked.usable
            else:
                read[key] = checked
        return read

    def require(self, path: Path, section: Section, table: Any) -> None:
        if not isinstance(table, dict):
            return
        meant = {find_nearest(str(key), section.keys) for key in table if key not in section.keys}
        for key in section.needed:
            if key not in table and key not in meant:
                hint = f'write {key} = "…" under [{path[0]}]' if len(path) == 1 else ""
                message = f"{section.said} has no {key}"
                self.found.add("course/missing-key", message, self.span(path, key=True), hint=hint)

    def read_units(self, units: Any, *, meant: bool = False) -> tuple[ListedUnit, ...]:
        if units is None and meant:
            return ()
        if units is None or units == []:
            hint = 'write [[unit]], then title = "…" and lessons = ["first.md"]'
            self.found.add(
                "course/missing-key", "the course has no unit", self.found.source.span(0, 0), hint=hint
            )
            return ()
        if not isinstance(units, list) or not all(isinstance(unit, dict) for unit in units):
            self.fault(("unit",), "unit is a list of tables, each with [[unit]] above it", "")
            units = [units] if isinstance(units, dict) else []
            self.where.keys.setdefault(("unit", 0), self.where.find(("unit",)))
        read: list[ListedUnit] = []
        for number, unit in enumerate(units):
            path: Path = ("unit", number)
            values = self.read_section(path, UNIT, unit)
            self.require(path, UNIT, unit)
            lessons = self.list_files((*path, "lessons"), values.get("lessons", ()))
            drafts = self.list_files((*path, "drafts"), values.get("drafts", ()))
            read.append(ListedUnit(values.get("title", ""), lessons, drafts))
        return tuple(read)

    def list_files(self, path: Path, files: tuple[str, ...]) -> tuple[Listed, ...]:
        return tuple(Listed(file, self.span((*path, at))) for at, file in enumerate(files))

    def fault(
        self, path: Path, message: str, hint: str, right: str | None = None, rule: str = "course/manifest"
    ) -> None:
        span = self.span(path)
        fix = Fix(f"write {right}", (Edit(span, right),)) if right is not None else None
        self.found.add(rule, message, span, hint=hint, fix=fix)

    def report_unknown(self, path: Path, right: tuple[str, ...], said: str) -> None:
        key = str(path[-1])
        near = find_nearest(key, right)
        hint = f"did you mean {near}?" if near else f"it has {list_words(right)}"
        message = f"{said} has no key {quote(key)}"
        self.found.add("course/unknown-key", message, self.span(path, key=True), hint=hint, fix=near)


def _default_key() -> Key:
    key = parse_key("C major")
    if key is None:
        raise AssertionError("C major is a key")
    return key
