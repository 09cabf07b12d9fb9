"""What a rule pack holds, as plain values. `pack_file` reads them, `guide` makes them think."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

from casebook.quantity import Reading

CROSS_CUTTING = "cross_cutting"
DOES_NOT_APPLY = "does_not_apply"
NOT_KNOWN = "not_known"

# The order in which the bench allows questions: hazards before hands, cleaning before judging, sizes with
# the part in place before sizes with it out.
STAGES = ("intake", "hazards", "earlier_repair", "part", "wood", "sizes", "sizes_apart")
# What finding out costs, least first.
EFFORTS = ("look", "measure", "take_apart")
# The tool in hand: readings with one tool are asked together.
TOOLS = ("eye", "caliper", "depth_rod", "micrometer", "gauge", "rod", "feeler", "scale", "hygrometer")

# How a strategy treats the instrument: ordinal scales, best first (see DEVELOPERS.md, 'Ranking').
SCALES: dict[str, tuple[str, ...]] = {
    "original": ("all", "nearly_all", "part", "little"),
    "reversible": ("yes", "partly", "no"),
    "strength": ("strong", "medium", "light"),
    "seen": ("hidden", "slight", "plain"),
    "serviceable": ("yes", "partly", "no"),
}
# What a ranking may also go by: whether it leaves the object alone (the strategies on call), and hours.
RANKED_BY = ("leaves_alone", *SCALES, "hours")
# What ends a look, in the order in which it is done: afterwards the answers are taken anew.
ENDS_LOOK = ("measuring", "cleaning", "resting", "mending", "extracting")
LEVELS = ("danger", "warning", "note")
# What a repair waits for after the hands are done: glue, wood, something wet, or something on order.
WAITS_FOR = ("cure", "rest", "dry", "part")

Kind = Literal["choice", "several", "yes_no", "length", "count"]
Level = Literal["danger", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands in a pack: the file and the line."""

    file: str
    line: int | None


@dataclass(frozen=True, slots=True)
class Question:
    """What to look at or measure.

    Attributes:
        answers: answer id -> label; for yes_no: yes, no; empty for length and count.
        apart: for `several`: sets of answers of which at most one can hold at a time.
        alone: for `several`: answers that exclude every other ('none').
        asked_when: condition node; the fact exists only when it holds.
        of: for a length: ``size``, ``thread_diameter`` or ``thread_pitch``.
        low: least sensible size (mm, or a plain number for a count).
        high: greatest sensible size.
        was: ids it had in earlier packs.
        answers_were: earlier answer id -> answer id.
    """

    id: str
    at: Place
    name: str
    ask: str
    look: str
    kind: Kind
    answers: dict[str, str]
    stage: str
    effort: str
    tool: str
    apart: tuple[frozenset[str], ...] = ()
    alone: frozenset[str] = frozenset()
    asked_when: Any = None
    of: Literal["size", "thread_diameter", "thread_pitch"] = "size"
    low: Reading | None = None
    high: Reading | None = None
    for_the_record: bool = False
    was: tuple[str, ...] = ()
    answers_were: dict[str, str] = field(default_factory=dict)

    @property
    def measured(self) -> bool:
        """Whether the answer is a number."""
        return self.kind in ("length", "count")


@dataclass(frozen=True, slots=True)
class Source:
    """Where a worksheet input of a finding comes from.

    Attributes:
        question: the question (or, with `figure`, the finding) that gives it.
        figure: for an input taken from another finding: that finding's figure.
        words: for a choice question: answer id -> word of the worksheet's choice.
        optional: whether the worksheet can do without.
    """

    question: str
    figure: bool = False
    words: dict[str, str] = field(default_factory=dict)
    optional: bool = False


@dataclass(frozen=True, slots=True)
class Finding:
    """A fact derived by a worksheet: a proposition that is yes, no or unknown, often with a figure.

    Attributes:
        says: the proposition in words, for yes and for no.
        worksheet: the worksheet's id.
        checks: the checks that decide it; all must hold.
        turned: whether the finding holds when they do not.
        figure: the figure shown with it.
        inputs: worksheet input -> source.
        settings: worksheet input -> value as typed.
    """

    id: str
    at: Place
    name: str
    says_yes: str
    says_no: str
    worksheet: str
    checks: tuple[str, ...]
    turned: bool
    figure: str | None
    inputs: dict[str, Source]
    settings: dict[str, str]


@dataclass(frozen=True, slots=True)
class Clause:
    """One condition of a strategy with, where the pack gives one, its reason in words."""

    at: Place
    when: Any
    because: str | None = None


@dataclass(frozen=True, slots=True)
class Wait:
    """A time in which the hands can do something else.

    Attributes:
        what: one of WAITS_FOR.
        of: what it is that waits, in words (``two-part epoxy``); empty where `what` says it all.
        least: hours before the work may go on.
        most: hours after which it may go on for certain.
    """

    what: str
    of: str
    least: Fraction
    most: Fraction


@dataclass(frozen=True, slots=True)
class Strategy:
    """A way to repair.

    Attributes:
        fits_when: clauses that must all hold; the first one is what calls for the strategy.
        not_when: clauses none of which may hold.
        on_call: proposed only where an answer calls for it; otherwise it stands last.
        ends_look: for work after which one looks again: one of ENDS_LOOK.
        instead_of: the cross-cutting strategy whose place it takes in this family.
        only_in: for a cross-cutting strategy: the families it is offered in; empty for all.
        leads_to: the family to look at next, for one that finds out where a fault sits; it removes nothing.
        waits: what the work waits for, one after the other.
        involves: what the work brings with it (``cuts_wood``, ``adhesive``...), for cautions.
        scales: scale -> place, as in SCALES.
    """

    id: str
    at: Place
    title: str
    what: str
    keeps_original: str
    scales: dict[str, str]
    hours: tuple[float, float, float]
    fits_when: tuple[Clause, ...]
    not_when: tuple[Clause, ...]
    steps: tuple[str, ...]
    tools: tuple[str, ...]
    materials: tuple[str, ...]
    worksheets: tuple[str, ...]
    involves: frozenset[str]
    on_call: bool = False
    ends_look: str | None = None
    instead_of: str | None = None
    only_in: frozenset[str] = frozenset()
    leads_to: str | None = None
    waits: tuple[Wait, ...] = ()

    @property
    def removes_material(self) -> bool:
        """Whether original material is gone afterwards."""
        return self.scales["original"] != "all" or self.scales["reversible"] == "no"


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt the repairer, the owner or the instrument."""

    id: str
    at: Place
    level: Level
    text: str
    when: Any
    involves: frozenset[str]
    shop_rule: bool


@dataclass(frozen=True, slots=True)
class Stop:
    """A reason to stop and consult or decline; without `when` a person decides it by hand."""

    id: str
    at: Place
    says: str
    do: str
    when: Any


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Answers that cannot be taken at their word.

    A contradiction: they cannot all be right, so none of `questions` counts as known. A doubt: `questions`
    were judged under something that must come off first, so a strategy standing on them stays open, but for
    those in `lifted_by`, which take it off.
    """

    id: str
    at: Place
    when: Any
    questions: tuple[str, ...]
    because: str
    lifted_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Profile:
    """The order of the scales where `when` holds; the first that holds is used."""

    at: Place
    when: Any
    scales: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True)
class WorkRule:
    """The place of a family, or of work that ends a look so, in the order of work; one of the two is set."""

    family: str | None
    because: str
    ends_look: str | None = None


@dataclass(frozen=True, slots=True)
class MindRule:
    """Where what one repair involves undoes another: said when both lead on one instrument.

    Attributes:
        one: words of `involves`, or of ENDS_LOOK, of the one repair.
        other: the same for the other.
        same_joint: whether it only matters on one joint.
    """

    one: frozenset[str]
    other: frozenset[str]
    says: str
    same_joint: bool = False


@dataclass(frozen=True, slots=True)
class Pack:
    """One rule pack: a family's, or the cross-cutting one that applies everywhere.

    Attributes:
        digest: SHA-256 of the text, by which a decided case keeps the pack it was decided with.
        stops_when: cross-cutting stop -> a further condition under which it applies in this family.
        order_of_work: families in the order in which they are worked on.
        record: what to photograph and write down, by the time of doing it.
    """

    id: str
    version: str
    title: str
    scope: str
    file: str
    text: str
    digest: str
    questions: dict[str, Question]
    findings: dict[str, Finding]
    terms: dict[str, Clause]
    never_together: tuple[Clause, ...]
    contradictions: dict[str, Disagreement]
    doubts: dict[str, Disagreement]
    strategies: dict[str, Strategy]
    cautions: dict[str, Caution]
    stops: dict[str, Stop]
    stops_when: dict[str, Clause]
    ranking: tuple[Profile, ...]
    order_of_work: tuple[WorkRule, ...]
    mind_together: tuple[MindRule, ...]
    record: dict[str, tuple[str, ...]]
