"""At the counter: where to look first from what it does; a quick job, or taken in where it leads to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from textual.binding import BindingType

from casebook.bench.counter import symptom_said
from casebook.bench.desk import Desk
from casebook.bench.taking_in import kinds
from casebook.records.case import Case, Damage, Instrument, Look
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.form import Entry, Form
from casebook.screens.intake_form import intake_form
from casebook.screens.keys import key
from casebook.screens.proposals import ProposalsScreen
from casebook.screens.rows import Rows


@dataclass(slots=True)
class CounterAtHand(DamageAtHand):
    """A look from the symptom that belongs to no case yet."""

    @classmethod
    def begin(cls, desk: Desk) -> CounterAtHand:
        """Begin one.

        Raises:
            KeyError: there are no rules that start from a symptom.
        """
        session = desk.counter_look()
        nothing_yet = Damage(session.guide.family, looks=(Look(),), number=1)
        return cls(desk, "", 1, session, Case(title="At the counter", damages=(nothing_yet,)))

    def again(self) -> None:
        """There is no case to read anew."""

    @property
    def name(self) -> str:
        """What stands at the head of its screens."""
        return f"At the counter  {symptom_said(self.session)}".rstrip()

    @property
    def which_look(self) -> str:
        """There is no case to have looks."""
        return ""

    def next_question(self) -> str | None:
        """Ask as one does at a counter: what it does, may it be tested, then the quick tests in turn."""
        left = {one.question for one in self.session.asked} - self.passed
        own = [id for id in self.session.guide.pack.questions if id in left]
        return own[0] if own else None


class CounterScreen(ProposalsScreen):
    """Where to look first."""

    HELP = (
        "Where to look first, from what it does and two quick tests; cause before symptom. Enter takes the "
        "instrument in with a damage of the marked kind, and what was found out goes with it. j writes down "
        "a job that was done while its owner waited."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "choose", "take it in", "Take it in, with a damage of the marked kind."),
        key("j", "quick_job", "quick job", "Done while its owner waited: who, what, found, done, paid."),
        key(
            "g,f8", "answer", "answer what it waits for", "Go to the first question the marked one waits for."
        ),
    ]

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is no case yet to compare or to calculate for."""
        if action in ("figures", "like"):
            return False
        return super().check_action(action, parameters)

    def action_choose(self) -> None:
        """Take it in, with a damage of the family the marked one leads to."""
        desk, session = self.desk, self.at.session
        family = self._leads_to()

        def then(number: str) -> None:
            damage = desk.take_up(number, family, session) if family else 0
            self.call_later(self._taken_in, number, damage)

        self.app.push_screen(intake_form(desk, then, title=symptom_said(session)))

    def _taken_in(self, number: str, damage: int) -> None:
        """Leave the counter; Esc from the case then leads to the bench."""
        self.casebook.leave_counter()
        self.casebook.open_case(number)
        if damage:
            self.casebook.open_damage(number, damage)

    def action_quick_job(self) -> None:
        """Write down a job done while its owner waited."""
        self.casebook.quick_job(self.at.session, self._leads_to())

    def _leads_to(self) -> str:
        """The family the marked proposal leads to; empty where it leads nowhere."""
        marked = self.query_one(Rows).marked
        ruled = self.at.session.guide.strategies.get(marked or "")
        return (ruled.strategy.leads_to if ruled else None) or ""


def quick_job_form(desk: Desk, what: str, found: str, family: str, then: Callable[[str], None]) -> Form:
    """Make the form for a job done while its owner waited; `then` gets the case's number.

    Args:
        desk: the desk.
        what: what it does, where a look from the symptom said so.
        found: what the tests found.
        family: the family it leads to; empty for what nobody needed to judge.
        then: gets the number.
    """

    def take(written: dict[str, str]) -> None:
        case = desk.quick_job(
            written["who"].strip(),
            written["what"].strip(),
            written["found"].strip(),
            written["done"].strip(),
            written["paid"].strip(),
            written["how"].strip(),
            instrument=Instrument(written["kind"].replace("_", " ")),
            family=family,
        )
        then(case.number)

    entries = [
        Entry("who", "Who", hint="a reference, no address"),
        Entry("what", "What", value=what, needed=True, hint="clarinet, A flat key comes up slowly"),
        Entry("found", "Found", value=found, hint="rod bent by a hair"),
        Entry("done", "Done", needed=True, hint="rod straightened, oiled"),
        Entry("paid", "Paid", hint="12.50; empty: nothing"),
        Entry("how", "How", hint="cash, card"),
        Entry("kind", "Instrument", "pick", choices=kinds(desk)),
    ]
    return Form("A quick job", entries, take, "Kept as a finished case, found again by its words.")
