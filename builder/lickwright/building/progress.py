"""How far long work has come, told step by step to whoever wants to show it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lickwright.building.plan import Job


@dataclass(frozen=True, slots=True)
class Step:
    """One step.

    Attributes:
        work: What is being done, as a participle: ``Engraving and sounding``.
        done: How many licks are finished, 0 to ``total``.
        total: How many there are; 0: the work is not counted.
        name: The lick in hand, or empty.
    """

    work: str
    done: int = 0
    total: int = 0
    name: str = ""


Watch = Callable[[Step], None]


def unwatched(step: Step) -> None:
    """Let a step pass unseen."""


class Tally:
    """Counts licks, not jobs: a lick is done when the last thing ordered for it is."""

    def __init__(self, wanted: Sequence[Job], watch: Watch) -> None:
        self._left = Counter(job.order.for_lick for job in wanted)
        self._total = len(self._left)
        self._watch = watch
        if wanted:
            self._tell("")

    def count(self, job: Job) -> None:
        """Take note that a job has ended."""
        name = job.order.for_lick
        self._left[name] -= 1
        if not self._left[name]:
            del self._left[name]
        self._tell(name)

    def _tell(self, name: str) -> None:
        self._watch(Step("Engraving and sounding", self._total - len(self._left), self._total, name))
