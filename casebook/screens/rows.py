"""A list of rows in columns, cut to the width there is."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from casebook.screens.plain import cell, columns, joined, line, lines, shared_out

Row = tuple[str, Sequence[Content | str]]


class Rows(OptionList):
    """Rows to choose from; each has an id of its own.

    Args:
        widths: the width of each column; a negative one takes that share of what is left.
        numbered: whether the first nine rows show the digit that takes them.
        whole: the place of a column that is never cut but goes on below, or None.
        id: the widget's id.
    """

    def __init__(
        self,
        widths: Sequence[int],
        *,
        numbered: bool = False,
        whole: int | None = None,
        id: str | None = None,
    ) -> None:
        super().__init__(id=id, markup=False, compact=True)
        self._columns = list(widths)
        self._numbered = numbered
        self._whole = whole
        self._rows: list[Row] = []
        self._drawn_for = 0

    def fill(self, rows: Sequence[Row], keep: str | None = None) -> None:
        """Show these rows; the one called `keep`, or the one marked before, stays marked."""
        marked = keep if keep is not None else self.marked
        place = self.highlighted
        self._rows = list(rows)
        self._draw()
        ids = [id for id, _ in rows]
        if marked in ids:
            self.highlighted = ids.index(marked)
        elif ids:
            self.highlighted = min(place or 0, len(ids) - 1)

    @property
    def marked(self) -> str | None:
        """The id of the marked row, or None."""
        at = self.highlighted
        return self._rows[at][0] if at is not None and at < len(self._rows) else None

    @property
    def ids(self) -> list[str]:
        """The ids of the rows, in order."""
        return [id for id, _ in self._rows]

    def on_resize(self) -> None:
        """Cut to the new width."""
        if self.size.width != self._drawn_for:
            place = self.highlighted
            self._draw()
            self.highlighted = place

    def _draw(self) -> None:
        self._drawn_for = self.size.width
        # The bar that scrolls takes two columns when there are more rows than lines.
        room = max(10, self.size.width - 2 - (3 if self._numbered else 0))
        widths = shared_out(self._columns, room)
        options = []
        for number, (_, cells) in enumerate(self._rows, 1):
            text = lines(self._set_in(cells, widths))
            if self._numbered:
                text = joined(cell(f"{number}" if number < 10 else "", 2), " ", text)
            options.append(Option(text))
        self.set_options(options)

    def _set_in(self, cells: Sequence[Content | str], widths: Sequence[int]) -> list[Content]:
        if self._whole is None:
            return [columns(cells, widths)]
        long = cells[self._whole]
        content = line(long) if isinstance(long, str) else long
        parts = content.wrap(widths[self._whole]) if content else [content]
        shown = []
        for place, part in enumerate(parts):
            others: list[Content | str] = [*cells] if place == 0 else [""] * len(cells)
            others[self._whole] = part
            shown.append(columns(others, widths))
        return shown
