"""``lickwright explain``: the handbook and the guide on the terminal."""

import pytest

from lickwright.checks.handbook import pages
from lickwright.cli.explain import titles, topics_of_the_guide
from lickwright.cli.group import main


def explain(capsys: pytest.CaptureFixture[str], *names: str) -> tuple[int, str]:
    with pytest.raises(SystemExit) as ended:
        main(["explain", *names])
    assert isinstance(ended.value.code, int)
    said = capsys.readouterr()
    return ended.value.code, said.out + said.err


def test_every_rule_has_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    """Each rule's page has its name, its title and, for the rules of the proof, why it matters."""
    assert {page.id for page in pages()} < set(titles())
    for rule, title in titles().items():
        status, page = explain(capsys, rule)
        assert status == 0
        assert page.startswith(f"# {title}\n")
        assert f"`{rule}`" in page


def test_every_topic_has_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    """Each page of the guide can be printed."""
    for topic in topics_of_the_guide():
        status, page = explain(capsys, topic)
        assert status == 0
        assert page.startswith("#")


def test_without_a_name_everything_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """The list has every topic and every rule."""
    status, listed = explain(capsys)
    assert status == 0
    assert set(titles()) | set(topics_of_the_guide()) <= set(listed.split())


@pytest.mark.parametrize(
    ("name", "near"), [("hands/strech", "hands/stretch"), ("rythm/bar-length", "rhythm/bar-length")]
)
def test_a_slip_gets_the_nearest_name(capsys: pytest.CaptureFixture[str], name: str, near: str) -> None:
    """An unknown name ends with status 2 and names the nearest."""
    status, said = explain(capsys, name)
    assert status == 2
    assert near in said
