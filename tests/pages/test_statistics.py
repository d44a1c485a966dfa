"""The statistics of a proof sheet."""

from dataclasses import replace

from lickwright.pages import statistics
from lickwright.pages.edition import Edition


def test_findings_and_stets_by_rule(slips: Edition) -> None:
    """A rule is counted with what stands; one that stands more often than not is named, and linked."""
    rows = {
        row[0].split(">")[1].split("<")[0]: row[1:]
        for row in statistics.rule_table(slips.findings, slips).rows
    }
    assert rows["harmony/unexplained"] == ("2", "1", "")
    assert rows["hands/range"] == ("1", "0", "")
    alone = statistics.rule_table((), replace(slips, standing=(*slips.standing, *slips.standing)))
    assert alone.rows[0][1:] == ("2", "2", "to reconsider")
    assert 'href="handbook/harmony-unexplained.html"' in alone.rows[0][0]
    assert statistics.rule_table((), replace(slips, standing=())) is None


def test_claims_not_checked(slips: Edition) -> None:
    """What the prose says and nobody could check is one list, with its place."""
    (row,) = statistics.not_checked(slips).rows
    assert row[0] == "First"
    assert row[2] == "plank 1.1"
    assert row[3].startswith("“downstroke” has not been checked")
    assert slips.course.lessons[1].source.line(int(row[1])).startswith("[A downstroke]")


def test_sign_offs(slips: Edition) -> None:
    """Each lesson in the order of study: not signed, or changed since, and by whom."""
    assert statistics.sign_offs(slips).rows == (
        ("Second", "not signed", ""),
        ("First", "changed since signed", "An editor"),
    )


def test_what_is_covered(slips: Edition) -> None:
    """A column a lesson, a row a thing, a dot for none."""
    tables = {table.title: table for table in statistics.matrices(statistics.coverage_of(slips))}
    assert tables["Keys"].lessons == ("1", "2")
    assert tables["Keys"].rows == (("A major", ("2", "1"), ""),)
    assert tables["Beats a minute"].rows == (("80 to 99", ("2", "1"), ""),)


def test_the_curve(slips: Edition) -> None:
    """The table names the hardest lick of each lesson; a harder one stands higher in the picture."""
    coverage = statistics.coverage_of(slips)
    curve = statistics.curve_of(coverage)
    assert [row[1] for row in curve.table.rows] == ["Second", "First"]
    (_, low), (_, high) = curve.dots
    scores = [step.difficulty.score for step in coverage.curve]
    assert (high < low) == (scores[1] > scores[0])
    assert curve.points == " ".join(f"{x},{y}" for x, y in curve.dots)
    assert all(0 < x < curve.width and 0 < y < curve.height for x, y in curve.dots)


def test_a_key_is_printed_with_its_signs() -> None:
    """A flat is a flat, and a b in the name of a mode is a letter."""
    assert statistics.signs_of_key("Bb major") == "B♭ major"
    assert statistics.signs_of_key("F# minor") == "F♯ minor"
