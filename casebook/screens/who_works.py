"""Whose initials the work gets: asked once where several people work, never where one works alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from casebook.screens.pick import Pick
from casebook.screens.way import Way


def people_of(app: Way) -> Mapping[str, str]:
    """Give the people of the shop by their initials."""
    return app.desk.shop.people if app.desk.shop else {}


def as_somebody(app: Way, then: Callable[[], None]) -> None:
    """Go on once it is known who works."""
    people = people_of(app)
    if len(people) == 1 and not app.initials:
        app.initials = next(iter(people))
    if app.initials or not people:
        then()
    else:
        ask_who(app, then)


def ask_who(app: Way, then: Callable[[], None]) -> None:
    """Ask who works; picked none, nothing is gone on with."""

    def take(initials: str | None) -> None:
        if initials is not None:
            app.initials = initials
            then()

    rows = [(initials, [initials, name]) for initials, name in people_of(app).items()]
    app.push_screen(Pick("Who works?", rows), take)
