"""From screen to screen: the ways through the job, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from casebook.bench.counter import symptom_said, tests_said
from casebook.bench.look import LookSession
from casebook.bench.sheet import sheets_for
from casebook.bench.stage import STAGES
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.key_order import KeysInOrder
from casebook.screens.trouble import trouble_shown

if TYPE_CHECKING:
    from casebook.bench.desk import Desk
    from casebook.bench.shop_keeping import Change
    from casebook.screens.room import Room


class Way(KeysInOrder):
    """What the application adds to its screens: how one leads to the next.

    Screens are made where they are needed: most of them are never opened in a day.
    """

    def __init__(self) -> None:
        super().__init__()
        self.initials = ""
        # The look last open on each damage, so that undo still works after going elsewhere.
        self._at: dict[tuple[str, int], DamageAtHand] = {}

    @property
    def desk(self) -> Desk:
        """The desk."""
        raise NotImplementedError

    def take_in(self) -> None:
        """Take an instrument in, then write down its first damage."""
        from casebook.screens.intake_form import intake_form

        self.push_screen(intake_form(self.desk, self.taken_in))

    def taken_in(self, number: str) -> None:
        """Open a case that was just taken in, to write down its first damage."""

        def open_it() -> None:
            self.open_case(number)
            self.add_damage(number)

        self.call_later(open_it)

    def add_damage(self, number: str) -> None:
        """Write down a damage of a case, then look at it."""
        from casebook.screens.damage_form import damage_form

        def then(damage: int) -> None:
            self.call_later(self.open_damage, number, damage)

        self.push_screen(damage_form(self.desk, number, then))

    def instrument(self, uid: str) -> None:
        """Open the page of an instrument."""
        from casebook.screens.instrument import InstrumentScreen

        self._go(InstrumentScreen(uid))

    def instruments(self) -> None:
        """Find a known instrument."""
        from casebook.screens.instruments import InstrumentsScreen

        self._go(InstrumentsScreen())

    def due(self) -> None:
        """Show which repairs are to be looked at again."""
        from casebook.screens.due_list import DueScreen

        self._go(DueScreen())

    def phone(self, number: str) -> None:
        """Show a case on the telephone: the price ready to read out."""
        from casebook.screens.phone import PhoneScreen

        self._go(PhoneScreen(number))

    def phone_call(self) -> None:
        """Somebody calls: write down what they say, then read out the price."""
        from casebook.screens.phone_form import phone_form

        def then(number: str) -> None:
            def open_it() -> None:
                self.open_case(number)
                self.phone(number)

            self.call_later(open_it)

        self.push_screen(phone_form(self.desk, then))

    def shop(self) -> None:
        """Show what the shop has set."""
        from casebook.screens.shop_screen import ShopScreen

        self._go(ShopScreen())

    def drawer(self) -> None:
        """Show what lies in the shop's drawer."""
        from casebook.screens.drawer_screen import DrawerScreen

        self._go(DrawerScreen())

    def shop_rules(self) -> None:
        """Show the cautions that the shop may accept once as its rules."""
        from casebook.screens.shop_rules import ShopRulesScreen

        self._go(ShopRulesScreen())

    def first_run(self) -> None:
        """Ask once what a new shop must say; tell of ids in its file that the rule packs do not know."""
        from casebook.screens.first_run import first_run

        first_run(self)

    def change_shop(self, *changes: Change) -> None:
        """Change settings of the shop; looks that lie open go on with them.

        Raises:
            NotKept, BrokenFile: the file cannot be changed so; nothing was written.
        """
        try:
            self.desk.change_shop(*changes)
        finally:
            for at in self._at.values():
                at.session.in_shop(self.desk.unit, self.desk.shop.tools if self.desk.shop else None)

    def counter(self) -> None:
        """Serve somebody at the counter: from what it does, where there are rules for that."""
        from casebook.screens.counter import CounterAtHand

        try:
            at = CounterAtHand.begin(self.desk)
        except KeyError:
            self.quick_job(None, "")
        else:
            self.question(at)

    def quick_job(self, seen: LookSession | None, family: str) -> None:
        """Write down a job done while its owner waited; then the counter is left."""
        from casebook.screens.counter import quick_job_form

        def then(number: str) -> None:
            self.call_later(self.leave_counter)
            self.notify(f"{number} is kept, and found again by its words.", timeout=3, markup=False)

        what, found = (symptom_said(seen), tests_said(seen)) if seen else ("", "")
        self.push_screen(quick_job_form(self.desk, what, found.removeprefix(what).lstrip("; "), family, then))

    def leave_counter(self) -> None:
        """Go back to the first screen."""
        while len(self.screen_stack) > 1:
            self.pop_screen()

    def open_case(self, number: str) -> None:
        """Open a case."""
        from casebook.screens.case import CaseScreen

        self.push_screen(CaseScreen(number))

    def open_damage(self, number: str, damage: int) -> None:
        """Open a damage where the work goes on; damage 0 is the intake."""
        with trouble_shown(self):
            at = self._at_hand(number, damage)
            if STAGES.index(at.stage) >= STAGES.index("decided"):
                self.work(at)
            else:
                self.question(at)

    def _at_hand(self, number: str, damage: int) -> DamageAtHand:
        at = DamageAtHand.open(self.desk, number, damage)
        before = self._at.get((number, damage))
        if before is not None and before.session.answers == at.session.answers:
            before.again()
            return before
        self._at[number, damage] = at
        return at

    def question(self, at: DamageAtHand, question: str | None = None, *, instead: bool = False) -> None:
        """Ask about a damage."""
        from casebook.screens.questionnaire import QuestionnaireScreen

        self._go(QuestionnaireScreen(at, question), instead=instead)

    def proposals(self, at: DamageAtHand) -> None:
        """Show the proposals."""
        if at.is_kept:
            from casebook.screens.proposals import ProposalsScreen

            self._go(ProposalsScreen(at))
        else:
            from casebook.screens.counter import CounterScreen

            self._go(CounterScreen(at))

    def work(self, at: DamageAtHand, *, instead: bool = False) -> None:
        """Show the work."""
        from casebook.screens.work import WorkScreen

        self._go(WorkScreen(at), instead=instead)

    def figures(self, at: DamageAtHand, first: str = "") -> None:
        """Show the worksheets of a damage, `first` open where it belongs to it."""
        from casebook.screens.figures_screen import FiguresScreen

        choice = at.damage.choice
        ids = sheets_for(at.session, choice.strategy if choice else "")
        if ids:
            self._go(FiguresScreen(ids, at, ids.index(first) if first in ids else 0))
        else:
            self.notify("No worksheet belongs to this damage.", timeout=3, markup=False)

    def worksheets(self) -> None:
        """Show all worksheets."""
        from casebook.screens.sheets import SheetsScreen

        self._go(SheetsScreen())

    def find(self) -> None:
        """Search."""
        from casebook.screens.find import FindScreen

        self._go(FindScreen())

    def like_it(self, number: str, damage: int) -> None:
        """Show the like of a damage."""
        from casebook.screens.like_it import LikeItScreen

        self._go(LikeItScreen(number, damage))

    def mind(self, title: str, *said: str) -> None:
        """Show a few lines to mind, when whatever lies on top has gone."""
        if any(said):
            from casebook.screens.mind import Mind

            self.call_later(self.push_screen, Mind(title, [one for one in said if one]))

    def _go(self, screen: Room, *, instead: bool = False) -> None:
        """Show a screen; one of its kind that lies open is left first, so that Esc never goes round."""
        kinds = [type(one) for one in self.screen_stack]
        if type(screen) in kinds:
            for _ in range(len(kinds) - kinds.index(type(screen))):
                self.pop_screen()
            self.push_screen(screen)
        elif instead:
            self.switch_screen(screen)
        else:
            self.push_screen(screen)
