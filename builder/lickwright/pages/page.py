"""A page: where it stands, what it orders, how it renders.

Both halves are pure. Orders are values; ``made`` hands back what became of one, or None when
its renderer failed (a finding then names the lick, and the page says so in its place).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lickwright.model.orders import Order, Result

Made = Callable[[Order], Result | None]
"""What became of an order. Asked with the very order objects that the page gave."""


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the site.

    Attributes:
        path: POSIX path in the site, ``lessons/gangplank.html``.
        orders: What it wants made; equal orders of several pages are made once.
        render: From what was made to the HTML text.
        pictures: Files of the course that it shows, by their paths in the course and in the site.
        files: From what was made to the files beside it that are its own, by their paths in the site;
            those of one path are equal.
    """

    path: str
    orders: tuple[Order, ...]
    render: Callable[[Made], str]
    pictures: tuple[str, ...] = ()
    files: Callable[[Made], Mapping[str, bytes]] = lambda _: {}
