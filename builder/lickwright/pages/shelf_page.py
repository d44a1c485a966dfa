"""The contents of a proof sheet by itself: what its folder opens with where no course is published."""

from __future__ import annotations

from lickwright.pages.edition import Edition
from lickwright.pages.index import PATH
from lickwright.pages.page import Made, Page
from lickwright.pages.shelf import Entry, Group, shelf


def shelf_page(edition: Edition) -> Page:
    """Return the contents; it orders nothing."""
    entries = shelf(PATH, guide=False)

    def render(_: Made) -> str:
        return edition.theme.render(
            "contents.html",
            page=edition.view(PATH, edition.course.title),
            course=edition.course,
            deck="Editor’s proof, not for students",
            groups=(Group("For the author", tuple(Entry(each.title, each.href) for each in entries)),),
            shelf=entries,
        )

    return Page(PATH, (), render)
