"""Every role has words: for the student beside the note, for the editor in the remark and in the finding."""

from __future__ import annotations

from dataclasses import replace

import pytest
from scores import read_piece

from lickwright.analysis import Role
from lickwright.analysis.classifier import analyse
from lickwright.analysis.commentary import Remark, comment
from lickwright.analysis.entries import Analysis

LINES = {
    "goes on by step": "key: C major\n\nC | 3:0 - 2:5 - 2:6 - 2:5 -\nF | 2:6 - - - - - - -",
    "goes on by a leap": "key: C major\n\nC | 3:0 - 2:6 - 3:5 - 2:5 -\nF | 2:6 - - - - - - -",
    "ends a phrase": "key: C major\n\nC | 3:0 - 2:6 . . . . .\nF | 2:6 - - - - - - -",
}


def _with_role(text: str, role: Role) -> Analysis:
    """A line whose second note is given a role, whatever it is."""
    analysis = analyse(read_piece(text))
    first, _, *others = analysis.roles[0]
    return replace(analysis, roles=((first, role, *others),))


def _remark(analysis: Analysis) -> Remark:
    (found,) = [r for r in comment(analysis) if any(str(n.address) == "1.2" for n in r.notes)]
    return found


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("role", Role)
def test_a_student_reads_why(role: Role, line: str) -> None:
    """A reason in words of its own, which does not say the name of the role over again."""
    (why,) = [n.why for n in _remark(_with_role(LINES[line], role)).notes if str(n.address) == "1.2"]
    assert len(why.split()) > 2
    assert why.removeprefix("a ").removeprefix("an ") != role.value


@pytest.mark.parametrize("role", Role)
def test_an_editor_reads_the_role_and_a_doubt_where_there_is_one(role: Role) -> None:
    """The word for the role stands beside the note; only of an unexplained one the remark is in doubt."""
    remark = _remark(_with_role(LINES["goes on by a leap"], role))
    (word,) = [n.role for n in remark.notes if str(n.address) == "1.2"]
    assert word == role.value
    assert remark.text
    assert bool(remark.doubt) is (role is Role.UNEXPLAINED)


def test_no_two_roles_share_their_words() -> None:
    """Left by a leap, each role has another reason, and none has another's word."""
    whys = {}
    for role in Role:
        remark = _remark(_with_role(LINES["goes on by a leap"], role))
        (whys[role],) = [n.why for n in remark.notes if str(n.address) == "1.2"]
    assert len({*whys.values()}) == len(Role)
