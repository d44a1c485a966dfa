"""Names of tones by their address, the same in a picture and in a file.

A tone ``k`` (from 1, in the order written) of the sound at ``2.3`` is ``2-3u1`` (``l`` for the lower
voice); what goes on from it under a tie adds ``-2``, ``-3`` ….
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lickwright.model.address import Address


def local_id(address: Address, k: int, piece: int = 1) -> str:
    """Return ``2-3u1``; from the second tied piece on ``2-3u1-2``."""
    voice = "l" if address.lower else "u"
    tail = "" if piece == 1 else f"-{piece}"
    return f"{address.bar}-{address.sound}{voice}{k}{tail}"


def grace_id(address: Address, grace: int, k: int) -> str:
    """Return the name of a tone of the ``grace``-th grace note (from 1) before a sound: ``2-3ug1-1``."""
    return f"{address.bar}-{address.sound}{'l' if address.lower else 'u'}g{grace}-{k}"
