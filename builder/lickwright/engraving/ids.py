"""Ids in the SVG, so that pages and player find a tone by its address.

A tone ``k`` (from 1, in the order written) of the sound at ``2.3`` is ``s2-3u1`` on the staff and
``t2-3u1`` on the tab (``l`` for the lower voice); what goes on from it under a tie adds ``-2``,
``-3`` …. The order's prefix and the width come first: ``w-porch-step-s2-3u1``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lickwright.analysis.notation.ids import local_id

if TYPE_CHECKING:
    from lickwright.model.address import Address
    from lickwright.model.orders import Width


def tone_ids(prefix: str, address: Address, k: int, width: Width = "wide") -> tuple[str, str]:
    """Return the ids of a tone on the staff and on the tab.

    Args:
        prefix: The order's.
        address: Of a sound.
        k: Which tone of the sound, from 1.
        width: The order's.
    """
    head, local = page_prefix(prefix, width), local_id(address, k)
    return f"{head}s{local}", f"{head}t{local}"


def page_prefix(prefix: str, width: Width) -> str:
    """Return what begins every id of an order's SVG: ``w-porch-step-``."""
    return f"{width[0]}-{prefix}-"
