"""The steps of the work, ticked off one by one: by whom, in what time, and what was done otherwise."""

from __future__ import annotations

from textual.screen import ModalScreen

from casebook.guide.pack import Strategy
from casebook.records.case import StepDone
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.pick import take_away
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.trouble import trouble_shown
from casebook.screens.who_works import as_somebody, ask_who
from casebook.screens.work_forms import departure_form, step_form
from casebook.screens.work_steps import Step, done_text, step_rows, steps_of


class Checklist(Room):
    """A screen with the steps of one damage in its `Rows`; their acts, keys are given by the screen.

    Args:
        at: the damage.
    """

    def __init__(self, at: DamageAtHand) -> None:
        super().__init__()
        self.at = at
        self._steps: list[Step] = []

    def show_steps(self, strategy: Strategy | None) -> None:
        """Show the steps as last read."""
        self._steps = steps_of(self.at.damage, strategy.steps if strategy else ())
        rows = self.query_one(Rows)
        rows.fill(step_rows(self._steps))
        self.set_focus(rows)

    @property
    def _marked(self) -> Step | None:
        marked = self.query_one(Rows).marked
        return None if marked is None else self._steps[int(marked)]

    def action_tick(self) -> None:
        """Tick the marked step off as done today, or take the tick away."""
        step = self._marked
        if step is None:
            return
        done = step.done
        if done is None:
            as_somebody(self.casebook, lambda: self._tick(step))
        elif step.planned and done == StepDone(step.text, self.desk.today, self.casebook.initials):
            self._untick(done)
        else:
            title = "More than your tick of today is written here. Take it away?"
            take_away(self.app, title, step.text, done_text(done), lambda: self._untick(done))

    def _tick(self, step: Step) -> None:
        shown = self._steps
        self.renew()
        if self._steps != shown:
            self.notify("Somebody else has written here meanwhile: look, then tick.", timeout=3, markup=False)
            return
        with trouble_shown(self.app):
            self.at.desk.do_step(self.at.number, self.at.damage_number, step.text, self.casebook.initials)
            self.renew()
            self._on_to_the_next()

    def _on_to_the_next(self) -> None:
        """Mark the next step that is not done; after the last one stay, so that no tick is taken away."""
        rows = self.query_one(Rows)
        at = rows.highlighted or 0
        left = (place for place, step in enumerate(self._steps) if place > at and step.done is None)
        rows.highlighted = next(left, at)

    def _untick(self, done: StepDone) -> None:
        with trouble_shown(self.app):
            self.at.desk.mend_step(self.at.number, self.at.damage_number, done, None)
        self.renew()

    def action_who(self) -> None:
        """Say who works now."""
        ask_who(self.casebook, self.renew)

    def on_option_list_option_selected(self) -> None:
        """Tick off with details."""
        self.action_tick_with()

    def action_tick_with(self) -> None:
        """Tick the marked step off with initials, day, hours and a note."""
        step = self._marked
        if step is not None:
            as_somebody(
                self.casebook, lambda: self.ask(step_form(self.at, self.casebook, step.text, step.done))
            )

    def action_add(self) -> None:
        """Add a step of one's own."""
        as_somebody(self.casebook, lambda: self.ask(step_form(self.at, self.casebook)))

    def action_departure(self) -> None:
        """Write down what was done otherwise than planned."""
        step = self._marked
        before = step.departures[-1] if step and step.departures else None
        self.ask(departure_form(self.at, step.text if step else "", before))

    def ask(self, form: ModalScreen[bool]) -> None:
        """Show a form; what it keeps is shown at once."""
        self.app.push_screen(form, lambda _: self.renew())
