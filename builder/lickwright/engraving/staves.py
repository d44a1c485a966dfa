"""Which staves a view has, and the numbers Verovio knows them by."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lickwright.model.orders import View


@dataclass(frozen=True, slots=True)
class Staves:
    """Numbers of the staff and the tab; ``None`` = not in the view."""

    staff: int | None
    tab: int | None

    @property
    def host(self) -> str:
        """Where the signs of the hands stand: ``t`` over the tab, ``s`` over the staff without one."""
        return "t" if self.tab else "s"

    @property
    def names(self) -> str:
        """Letters of the staves, from the top."""
        return ("s" if self.staff else "") + ("t" if self.tab else "")

    @property
    def top(self) -> str:
        """The upper staff: ``s``, or ``t`` in a view of the tab alone."""
        return "s" if self.staff else "t"


STAVES: dict[View, Staves] = {"both": Staves(1, 2), "tab": Staves(None, 1), "staff": Staves(1, None)}
