"""A worksheet: every input can be typed over, and the figures beside it follow at once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static

from casebook.bench.as_made import AS_MADE, put_as_made
from casebook.bench.sheet import Sheet, filled
from casebook.screens.damage_at_hand import DamageAtHand
from casebook.screens.fields import TextLine
from casebook.screens.keys import KeyLine, key
from casebook.screens.plain import BOLD, FAINT, WRONG, joined, line, lines, plain
from casebook.screens.room import Room
from casebook.screens.rows import Rows
from casebook.screens.section_canvas import section
from casebook.screens.sheet_list import SheetList
from casebook.screens.sheet_text import result_content
from casebook.screens.trouble import trouble_shown


class FiguresScreen(Room):
    """One worksheet after the other, of a damage or by itself.

    Args:
        ids: the worksheets to go through.
        at: the damage whose answers fill them, or None.
    """

    HELP = (
        "A calculation of the shop. Arrows move over what it takes; type a size straight away, or Enter "
        "to change what stands there: any unit, an error of its own (5.2 mm +- 0.05), between two "
        "drills (goes #21 not #20). Beside it every figure and check follows while you type. What comes "
        "from your answers says so."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "change", "change", "Change the marked input; Enter again takes it."),
        key("k,f2", "keep", "keep", "Keep the worksheet as it stands with the damage."),
        key("o,f6", "other", "next sheet", "On to the next worksheet."),
        key("w,f9", "list", "worksheets", "All worksheets that belong here, to go to any."),
        key("h,f4", "whole", "how made", "Say how each figure was made and where it comes from."),
        key("delete", "clear", "", "Take the marked input away.", show=False),
        key("pagedown,right", "scroll(1)", "", "Read on in the figures.", show=False),
        key("pageup,left", "scroll(-1)", "", "Read back in the figures.", show=False),
    ]

    def __init__(self, ids: Sequence[str], at: DamageAtHand | None = None, place: int = 0) -> None:
        super().__init__()
        self.at = at
        self._ids = list(ids)
        self._place = place
        self._sheets: dict[str, Sheet] = {}
        self._whole = False

    def body(self) -> ComposeResult:
        """Lay it out."""
        with Horizontal(id="sheet"):
            with Vertical(id="takes"):
                yield Rows([19, -1], id="inputs")
                yield Static(id="about")
                yield TextLine(id="value")
                yield Static(id="wrong")
            with VerticalScroll(id="gives", can_focus=False):
                yield Static(id="figures")
                yield Static(id="drawing")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keep only with a damage; go on only where there is another worksheet."""
        if action == "keep":
            return self.at is not None
        if action in ("other", "list"):
            return len(self._ids) > 1
        return super().check_action(action, parameters)

    @property
    def _sheet(self) -> Sheet:
        id = self._ids[self._place]
        if id not in self._sheets:
            kept = self.at.damage.figures if self.at else ()
            session = self.at.session if self.at else None
            self._sheets[id] = filled(id, session, self.desk.unit, kept, self.desk.shop)
            put_as_made(self._sheets[id], self.at.damage.measured if self.at else ())
        return self._sheets[id]

    # -- showing -----------------------------------------------------------------------------------------

    def renew(self) -> None:
        """Show the worksheet."""
        field = self.query_one(TextLine)
        field.display = False
        rows = self.query_one(Rows)
        rows.fill([(item.name, self._cells(item.name)) for item in self._sheet.inputs])
        self.set_focus(rows)
        self._head()
        self._about()
        self._show(self._sheet)

    def _head(self) -> None:
        title = self._sheet.worksheet.title
        count = f"{self._place + 1} of {len(self._ids)}" if len(self._ids) > 1 else ""
        where = f"{self.at.number}  " if self.at else ""
        self.heading.say(f"{where}{title}", count)

    def _cells(self, name: str) -> list[Content | str]:
        sheet = self._sheet
        text = sheet.shown(name)
        default = name not in sheet.typed
        return [name.replace("_", " "), line(text, FAINT if default else BOLD)]

    def _about(self) -> None:
        name = self.query_one(Rows).marked
        if name is None:
            return
        sheet = self._sheet
        item = next(one for one in sheet.inputs if one.name == name)
        said = item.help + (f" ({', '.join(item.choices)})" if item.choices else "")
        where = sheet.origin.get(name)
        if where == AS_MADE:
            tail = f"  {AS_MADE}"
        elif where:
            tail = f"  from your answer: {where}"
        elif name in sheet.typed:
            tail = "  typed here"
        else:
            tail = "  usual" if item.default else ""
        self.query_one("#about", Static).update(joined(plain(said), plain(tail, FAINT)))

    def _show(self, sheet: Sheet) -> None:
        self.query_one("#wrong", Static).update(plain(sheet.problem, WRONG))
        shown = result_content(sheet.result, self.desk.unit, whole=self._whole)
        self.query_one("#figures", Static).update(shown)
        drawing = sheet.result.drawing if sheet.result else {}
        room = self.query_one("#gives").size
        canvas = self.query_one("#drawing", Static)
        canvas.display = bool(drawing) and room.height >= 24
        if canvas.display:
            canvas.update(
                lines(["", plain(str(drawing.get("view", "")), FAINT), *section(drawing, room.width - 4, 18)])
            )

    def on_option_list_option_highlighted(self) -> None:
        """Say what the marked input is."""
        self._about()

    # -- changing ----------------------------------------------------------------------------------------

    def on_option_list_option_selected(self) -> None:
        """Change the marked input."""
        self.action_change()

    def on_key(self, event: events.Key) -> None:
        """Begin to type straight away."""
        typed = event.character or ""
        if isinstance(self.focused, Rows) and typed and typed in "0123456789.#":
            event.stop()
            self._begin(typed)

    def action_change(self) -> None:
        """Change the marked input."""
        name = self.query_one(Rows).marked
        if name is not None and not isinstance(self.focused, TextLine):
            self._begin(self._sheet.shown(name))

    def _begin(self, text: str) -> None:
        field = self.query_one(TextLine)
        field.display = True
        field.value = text
        field.cursor_position = len(text)
        self.set_focus(field)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what would follow."""
        name = self.query_one(Rows).marked
        if name is not None and event.input.has_focus:
            self._show(self._sheet.tried(name, event.value))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take what was typed; what cannot be used stays in the field."""
        name = self.query_one(Rows).marked
        if name is None:
            return
        tried = self._sheet.tried(name, event.value)
        if tried.problem:
            self._show(tried)
            return
        self._sheet.put(name, event.value)
        self.renew()
        self.query_one(Rows).action_cursor_down()

    def leave_field(self) -> bool:
        """Back to what stood there."""
        self.renew()
        return True

    def action_clear(self) -> None:
        """Take the marked input away."""
        name = self.query_one(Rows).marked
        if name is not None:
            self._sheet.put(name, "")
            self.renew()

    def action_keep(self) -> None:
        """Keep the worksheet with the damage."""
        if self.at is None:
            return
        with trouble_shown(self.app):
            self.desk.keep_figures(self.at.number, self.at.damage_number, self._sheet.used())
            self.at.again()
            self.notify("Kept with the damage.", timeout=3, markup=False)

    def action_other(self) -> None:
        """On to the next worksheet."""
        self._turn_to((self._place + 1) % len(self._ids))

    def action_list(self) -> None:
        """Show the worksheets that belong here."""

        def then(id: str | None) -> None:
            if id is not None:
                self._turn_to(self._ids.index(id))

        self.app.push_screen(SheetList(self._ids, self._ids[self._place]), then)

    def _turn_to(self, place: int) -> None:
        self._place = place
        self.query_one(Rows).highlighted = 0
        self.renew()
        self.query_one(KeyLine).again()

    def action_whole(self) -> None:
        """Say how each figure was made, or not."""
        self._whole = not self._whole
        self._show(self._sheet)

    def action_scroll(self, step: int) -> None:
        """Read on."""
        self.query_one("#gives").scroll_relative(y=step * 8, animate=False)
