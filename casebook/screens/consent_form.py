"""The form for what somebody said to work on a damage: yes, no or later, up to how much, who pays."""

from __future__ import annotations

from collections.abc import Callable

from casebook.bench.consent import payer_of
from casebook.bench.desk import Desk
from casebook.screens.form import Entry, Form

_SAID = (("yes", "yes"), ("no", "no, declined"), ("later", "later"))
_HOW = (("by telephone", "by telephone"), ("at the counter", "at the counter"), ("in writing", "in writing"))
PAYS = (
    ("owner", "the owner"),
    ("insurer", "an insurer"),
    ("school", "a school"),
    ("seller", "the seller (guarantee)"),
)


def consent_form(
    desk: Desk,
    number: str,
    damage: int,
    then: Callable[[str], None],
    strategy: str = "",
    note: str = "",
) -> Form:
    """Make the form for a yes, no or later to one damage.

    Args:
        desk: the desk.
        number: the case.
        damage: the damage.
        then: gets what was said.
        strategy: what it is asked for; empty for whatever the damage needs.
        note: why it is asked now.
    """
    case = desk.book.case(number)
    found = case.damage(damage)
    last = found.consents[-1] if found.consents else None
    to_what = strategy or (last.to_what if last else "")

    def take(written: dict[str, str]) -> None:
        desk.agree(
            number,
            damage,
            written["said"],
            who=written["who"].strip(),
            how=written["how"],
            up_to=written["up_to"].strip(),
            to_what=to_what,
            pays=written["pays"],
            note=written["note"].strip(),
        )
        then(written["said"])

    entries = [
        Entry("said", "They said", "pick", choices=_SAID, needed=True),
        Entry("who", "Who said it", value=last.who if last else "", hint="the owner"),
        Entry("how", "How", "pick", value=last.how if last else "", choices=_HOW),
        Entry("up_to", "Up to", value=last.up_to if last else "", hint="the most it may cost, as 80"),
        Entry("pays", "Who pays", "pick", value=payer_of(case, found), choices=PAYS),
        Entry("note", "Note"),
    ]
    return Form(f"{number}, {found.place or 'damage ' + str(damage)}: may it be done?", entries, take, note)
