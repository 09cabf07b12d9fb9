"""The damage one is at, and the look at it: what the screens of one damage share."""

from __future__ import annotations

from dataclasses import dataclass, field

from casebook.bench.case_text import answer_text
from casebook.bench.cautions_read import confirmed_on
from casebook.bench.danger import dangers_of
from casebook.bench.desk import Desk
from casebook.bench.look import LookSession
from casebook.bench.stage import Stage, stage_of
from casebook.guide.pack import Caution
from casebook.records.case import Case, Damage
from casebook.strict_yaml import BrokenFile


@dataclass(slots=True)
class DamageAtHand:
    """A damage of a case with the look in progress; damage 0 is the instrument as a whole (the intake).

    Attributes:
        passed: questions passed over as not known yet, since the look was opened.
    """

    desk: Desk
    number: str
    damage_number: int
    session: LookSession
    case: Case
    passed: set[str] = field(default_factory=set)

    @classmethod
    def open(cls, desk: Desk, number: str, damage: int) -> DamageAtHand:
        """Open the present look at a damage, or the intake (damage 0).

        Raises:
            StorageError, NoSuchCase, BrokenFile: the case, or the rule pack of its family, cannot be read.
        """
        try:
            session = desk.look(number, damage) if damage else desk.intake(number)
        except KeyError as error:
            raise BrokenFile(
                "rules", None, f"{error.args[0]}: its record can be read, not looked at"
            ) from None
        return cls(desk, number, damage, session, desk.book.case(number))

    def again(self) -> None:
        """Read the case anew."""
        self.case = self.desk.book.case(self.number)

    def look_again(self) -> None:
        """Open the look that has just begun."""
        self.session = self.desk.look(self.number, self.damage_number)
        self.passed.clear()
        self.again()

    @property
    def is_kept(self) -> bool:
        """Whether it belongs to a case; a look at the counter does not yet."""
        return bool(self.number)

    @property
    def is_intake(self) -> bool:
        """Whether the instrument as a whole is at hand."""
        return self.damage_number == 0

    @property
    def damage(self) -> Damage:
        """The damage as last read."""
        return self.case.damage(self.damage_number)

    @property
    def stage(self) -> Stage:
        """How far it has come."""
        if self.is_intake:
            return "taken in"
        if self.session.answers and stage_of(self.desk.library, self.damage) == "taken in":
            return "looked at"
        return stage_of(self.desk.library, self.damage)

    @property
    def name(self) -> str:
        """What stands at the head of its screens."""
        about = self.case.instrument.kind or "instrument"
        if self.is_intake:
            return f"{self.number}  {about} · the instrument as a whole"
        where = self.damage.place or self.session.guide.pack.title
        return f"{self.number}  {about} · {where}"

    @property
    def which_look(self) -> str:
        """First look, second look ..."""
        if self.is_intake:
            return "intake"
        count = len(self.damage.looks)
        return f"{('first', 'second', 'third', 'fourth')[count - 1] if count <= 4 else f'{count}th'} look"

    @property
    def way(self) -> Stage | None:
        """How far it has come on the way that its screens show; None where there is no way to show."""
        return self.stage if self.is_kept and not self.is_intake else None

    def next_question(self) -> str | None:
        """Give the question to go on to, those passed over left out; None when there is none."""
        if self.is_intake:
            asked = [id for id in self.session.questions() if id not in self.session.answers]
        else:
            asked = [one.question for one in self.session.asked]
        return next((id for id in asked if id not in self.passed), None)

    def before(self, question: str) -> str:
        """Word the answer of the look before, where there was one and it said otherwise; else empty."""
        if self.is_intake or len(self.damage.looks) < 2:
            return ""
        was = self.damage.looks[-2].answers.get(question)
        if was is None or was == self.session.answers.get(question):
            return ""
        return answer_text(self.session.guide, question, was)

    def dangers_unread(self, strategy: str) -> list[Caution]:
        """List the dangers of a strategy that nobody has read on this case."""
        return self.desk.unread(self.case, dangers_of(self.session.advice, strategy))

    def dangers_read(self, strategy: str) -> set[str]:
        """Name the dangers of a strategy that somebody has read on this case."""
        return confirmed_on(self.case) & {one.id for one in dangers_of(self.session.advice, strategy)}
