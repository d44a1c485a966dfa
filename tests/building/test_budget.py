"""What a page weighs."""

import random

from lickwright.building.budget import ELEMENTS, PACKED, RAW, weigh


def test_elements_and_bytes_are_counted() -> None:
    """Tags that begin an element count, text with a sign of it does not."""
    weight = weigh("x.html", b"<!doctype html><p>1 &lt;a<br>\xc3\xa9</p><svg><path/></svg>")
    assert (weight.raw, weight.elements, weight.over) == (53, 4, False)


def test_each_bound_alone_makes_a_page_heavy() -> None:
    """Too many bytes, too many when packed, too many elements; at the bound it still passes."""
    assert not weigh("x", b" " * RAW).over
    assert weigh("x", b" " * (RAW + 1)).over
    assert weigh("x", random.Random(1).randbytes(PACKED + 1)).over
    assert not weigh("x", b"<p>" * ELEMENTS).over
    assert weigh("x", b"<p>" * (ELEMENTS + 1)).over


def test_the_largest_pieces_of_a_heavy_page_are_named() -> None:
    """The three heaviest, the heaviest first; a page that keeps its budget names none."""
    sizes = {"hornpipe": 300_000, "walk": 20_000, "air": 250_000, "rag": 200_000}
    page = "".join(
        f'<section class="practice" id="lick-{name}">{"x" * size}</section>' for name, size in sizes.items()
    )
    largest = weigh("x", page.encode()).largest
    assert [name for name, _ in largest] == ["hornpipe", "air", "rag"]
    assert all(sizes[name] < size < sizes[name] + 80 for name, size in largest)
    assert weigh("x", page[:1000].encode()).largest == ()
