"""The proposals: the strategies in their order, the marked one in full, and the choice among them."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from casebook.bench.consent import PAYER_CAUTIONS, payer_of
from casebook.guide.advice import Proposal
from casebook.screens.alerts import Alerts, Cautions
from casebook.screens.consent_form import consent_form
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.dangers import Dangers
from casebook.screens.form import Entry, Form
from casebook.screens.keys import key
from casebook.screens.plain import BOLD, COLOURS, FAINT, GLYPHS, WORDS, line, lines, plain
from casebook.screens.proposal_text import proposal_text
from casebook.screens.room import Room
from casebook.screens.rows import Rows


class ProposalsScreen(Room):
    """The proposals on one damage."""

    HELP = (
        "The strategies in their order: those that fit, those still open, those ruled out. Arrows move; "
        "on the right stands why, what to mind, what it takes and the steps. Enter chooses the marked "
        "one: dangers special to this instrument are read first, what takes original material wants a "
        "yes, and another than the first wants a reason, which is kept."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "choose", "choose it", "Choose the marked strategy, with a reason."),
        key("f,f6", "figures", "figures", "Worksheets filled from the answers."),
        key(
            "g,f8", "answer", "answer what it waits for", "Go to the first question the marked one waits for."
        ),
        key("s,f7", "like", "like it", "Damages of the past like this one, and how they turned out."),
        key("c", "cautions", "cautions", "Read every stop, contradiction and caution whole."),
        key("slash,f3", "find", "find", "Find a case by what you remember of it.", show=False),
        key("pagedown,right", "scroll(1)", "", "Read on in the plan.", show=False),
        key("pageup,left", "scroll(-1)", "", "Read back in the plan.", show=False),
    ]

    def __init__(self, at: DamageAtHand) -> None:
        super().__init__()
        self.at = at

    def body(self) -> ComposeResult:
        """Lay it out."""
        yield Alerts()
        with Horizontal(id="choice"):
            with Vertical(id="order"):
                yield Rows([1, -1], id="strategies")
                yield Static(id="ranked")
            with VerticalScroll(id="plan", can_focus=False):
                yield Static(id="proposal")

    def renew(self) -> None:
        """Show the proposals as they stand."""
        advice = self.at.session.advice
        self.heading.say(self.at.name, self.at.which_look, self.at.way)
        self.query_one(Alerts).say(self.at.session)
        rows = self.query_one(Rows)
        rows.fill([(p.id, self._cells(p)) for p in advice.proposals])
        self.query_one("#ranked", Static).update(
            lines([plain(f"Order: {advice.profile}", FAINT), plain("+ fits  ? open  x ruled out", FAINT)])
        )
        self._show(rows.marked)
        self.set_focus(rows)

    def _cells(self, proposal: Proposal) -> list[Content | str]:
        chosen = self.at.damage.choice
        title = proposal.title + ("  = chosen" if chosen and chosen.strategy == proposal.id else "")
        style = COLOURS[proposal.standing]
        return [
            plain(GLYPHS[proposal.standing], f"bold {style}"),
            line(
                title, BOLD if proposal.standing == "fits" else "" if proposal.standing == "open" else FAINT
            ),
        ]

    def on_option_list_option_highlighted(self) -> None:
        """Show the plan of the marked one."""
        self._show(self.query_one(Rows).marked)

    def _show(self, id: str | None) -> None:
        if id is None:
            return
        advice = self.at.session.advice
        self.query_one("#proposal", Static).update(
            proposal_text(advice, advice.proposal(id), self.at.desk.accepted)
        )
        self.query_one("#plan").scroll_home(animate=False)

    def on_option_list_option_selected(self) -> None:
        """Choose the marked one."""
        self.action_choose()

    def action_choose(self) -> None:
        """Choose the marked strategy; its dangers are read first."""
        id = self.query_one(Rows).marked
        if id is not None:
            self._dangers_first(id, lambda: self._consent_first(id))

    def _dangers_first(self, id: str, then: Callable[[], None]) -> None:
        dangers = self.at.dangers_unread(id)
        if not dangers:
            then()
            return

        def read(yes: bool | None) -> None:
            if yes:
                at = self.at
                at.desk.confirm(at.number, [danger.id for danger in dangers], self.casebook.initials)
                at.again()
                then()

        self.app.push_screen(Dangers(dangers), read)

    def _consent_first(self, id: str) -> None:
        """Ask for a yes before a plan opens that takes original material; a no or later is kept as well."""
        at = self.at
        shut = at.desk.may_open_plan(at.number, at.damage_number, id)
        if shut is None:
            self._choose(id)
            return

        def then(said: str) -> None:
            at.again()
            self.casebook.mind("Who pays", PAYER_CAUTIONS.get(payer_of(at.case, at.damage), ""))
            if said == "yes":
                self.call_later(self._consent_first, id)
            else:
                kept = "advised, declined" if said == "no" else "put off until an answer comes"
                self.notify(f"Kept: {kept}. The plan stays shut.", timeout=3, markup=False)

        self.app.push_screen(consent_form(at.desk, at.number, at.damage_number, then, id, shut))

    def _choose(self, id: str) -> None:
        at = self.at
        advice = at.session.advice
        proposal = advice.proposal(id)
        first = proposal.place == 1 and proposal.standing == "fits"

        def take(written: dict[str, str]) -> None:
            at.desk.choose(
                at.number,
                at.damage_number,
                advice,
                id,
                written["reason"].strip(),
                dangers_read=at.dangers_read(id),
            )
            at.again()

        note = proposal.title if first else (
            f"{proposal.title}: {WORDS[proposal.standing]}, in place {proposal.place}. Say why this one."
        )  # fmt: skip
        entries = [Entry("reason", "Because", needed=not first)]
        self.app.push_screen(Form("Choose it", entries, take, note), self._chosen)

    def _chosen(self, kept: bool | None) -> None:
        if kept:
            self.casebook.work(self.at, instead=True)

    def action_answer(self) -> None:
        """Go to the first question the marked one waits for."""
        id = self.query_one(Rows).marked
        waiting = self.at.session.advice.proposal(id).waiting_on if id else ()
        if waiting:
            self.casebook.question(self.at, waiting[0])
        else:
            self.notify("It waits for no answer.", timeout=3, markup=False)

    def action_figures(self) -> None:
        """Show the worksheets."""
        self.casebook.figures(self.at)

    def action_like(self) -> None:
        """Show the like of it."""
        self.casebook.like_it(self.at.number, self.at.damage_number)

    def action_find(self) -> None:
        """Search."""
        self.casebook.find()

    def action_cautions(self) -> None:
        """Read the cautions whole."""
        self.app.push_screen(Cautions(self.at.session.advice))

    def action_scroll(self, step: int) -> None:
        """Read on, or back, in the plan."""
        self.query_one("#plan").scroll_relative(y=step * 8, animate=False)
