"""Knowledge is what is still possible: answers as sets, measurements as intervals.

Nothing asked means everything is possible. An empty set is never kept: where answers clash, the clash is
kept as a contradiction and the question counts as not known.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from casebook.figures.inputs import USUAL_ERROR
from casebook.guide.guide import Guide, questions_behind
from casebook.guide.pack import DOES_NOT_APPLY, NOT_KNOWN, Question
from casebook.guide.space import Variable, readable
from casebook.quantity import NotUnderstood, Reading, ToolError, Unit, read_count, read_length
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile, Sequence, Text, line_of
from casebook.strict_yaml import Mapping as YamlMapping


@dataclass(frozen=True, slots=True)
class Knowledge:
    """The answers of one look.

    Attributes:
        masks: question -> values still possible by its answer alone.
        readings: measured question -> reading, with its error.
    """

    masks: Mapping[str, int] = field(default_factory=dict)
    readings: Mapping[str, Reading] = field(default_factory=dict)

    def without(self, questions: Iterable[str]) -> Knowledge:
        """Give the knowledge with these questions not known."""
        gone = frozenset(questions)
        return Knowledge(
            {name: mask for name, mask in self.masks.items() if name not in gone},
            {name: reading for name, reading in self.readings.items() if name not in gone},
        )

    def with_answer(self, question: str, answer: int | Reading) -> Knowledge:
        """Give the knowledge with one question answered (by a mask or a reading)."""
        if isinstance(answer, Reading):
            return replace(self, readings={**self.readings, question: answer})
        return replace(self, masks={**self.masks, question: answer})


@dataclass(frozen=True, slots=True)
class Clash:
    """Answers that cannot all be right, and why."""

    questions: tuple[str, ...]
    because: str


def read_answers(
    guide: Guide,
    node: Any,
    file: str,
    *,
    bare: Unit | None = None,
    strict: bool = True,
    errors: Mapping[str, ToolError] | None = None,
) -> tuple[Knowledge, dict[str, str]]:
    """Read the answers of one look, as YAML nodes or as kept in the record.

    Args:
        guide: knows the questions.
        node: mapping from question id to answer.
        file: how messages call the file.
        bare: the unit of a bare length; None refuses one.
        strict: whether an unknown id is refused; otherwise it is left out and named.
        errors: the shop's reading errors by tool; without them every size has the usual one.

    Returns:
        The knowledge, and what was left out (question -> why).

    Raises:
        BrokenFile: an unknown id, an unreadable or senseless answer.
    """
    if node is None:
        return Knowledge(), {}
    if not isinstance(node, dict):
        raise BrokenFile(file, line_of(node), "answers: a mapping of question ids to answers is wanted")
    masks: dict[str, int] = {}
    readings: dict[str, Reading] = {}
    left_out: dict[str, str] = {}
    renamed = guide.renamed()
    for key, answer in node.items():
        name = renamed.get(str(key), str(key))
        if name != key and name in node:
            raise BrokenFile(
                file, line_of(key), f"{key} is called {name} now, which stands here too: keep one"
            )
        try:
            question = _question(guide, name, key, file)
            got = read_answer(guide, question, answer, file, bare=bare, line=line_of(key), errors=errors)
        except BrokenFile as error:
            if strict:
                raise
            left_out[str(key)] = error.problem
            continue
        if isinstance(got, Reading):
            readings[name] = got
        elif got is not None:
            masks[name] = got
    return Knowledge(masks, readings), left_out


def _question(guide: Guide, name: str, key: str, file: str) -> Question:
    question = guide.questions.get(name)
    if question is None:
        raise BrokenFile(file, line_of(key), f"unknown question {name!r}{nearest(name, guide.questions)}")
    return question


def read_answer(
    guide: Guide,
    question: Question,
    node: Any,
    file: str,
    *,
    bare: Unit | None = None,
    line: int | None = None,
    errors: Mapping[str, ToolError] | None = None,
) -> int | Reading | None:
    """Read one answer: a mask, a reading, or None for 'not known yet'.

    A size is as uncertain as it says itself, else as the tool it names (``5.2 mm by inside jaws``), else,
    with `errors`, as the question's tool, else as usual.

    Raises:
        BrokenFile: an unknown answer, an unreadable or senseless size.
    """
    line = line_of(node, line)
    if node is None or (isinstance(node, str) and _is_not_known(node)):
        return None
    variable = guide.space.by_name[question.id]
    if isinstance(node, str) and node == DOES_NOT_APPLY and variable.does_not_apply:
        return variable.does_not_apply
    if question.measured:
        return _reading(question, node, file, line, bare, errors)
    mask = _mask(question, variable, node, file, line) & ~variable.does_not_apply
    if not mask:
        raise BrokenFile(file, line, f"{question.id}: no answer is left; leave it out if it is not known")
    return mask


def _is_not_known(node: str) -> bool:
    return node == NOT_KNOWN or (isinstance(node, Text) and node.is_null)


def _mask(question: Question, variable: Variable, node: Any, file: str, line: int | None) -> int:
    if isinstance(node, str):
        return variable.exactly(_ids(question, [node], file, line))
    if isinstance(node, list):
        wanted = frozenset(_ids(question, node, file, line))
        return variable.mask(lambda value: value <= wanted)
    if isinstance(node, dict) and len(node) == 1:
        form, inner = next(iter(node.items()))
        words = _ids(question, inner if isinstance(inner, list) else [inner], file, line)
        if form == "not":
            return variable.full & ~variable.having(words)
        if form == "all":
            mask = variable.exactly(words)
            if not mask:
                together = " and ".join(words)
                raise BrokenFile(file, line, f"{question.id}: {together} cannot hold together")
            return mask
    raise BrokenFile(file, line, f"{question.id}: an answer id, a list of them, not: or all: is wanted")


def _ids(question: Question, nodes: list[Any], file: str, line: int | None) -> list[str]:
    words = []
    for node in nodes:
        if not isinstance(node, str):
            raise BrokenFile(file, line_of(node, line), f"{question.id}: an answer id is wanted here")
        word = question.answers_were.get(str(node), str(node))
        if word not in question.answers:
            hint = nearest(word, question.answers) or f" (known: {', '.join(question.answers)})"
            raise BrokenFile(file, line_of(node, line), f"{question.id}: unknown answer {word!r}{hint}")
        words.append(word)
    if not words:
        raise BrokenFile(file, line, f"{question.id}: no answer is left; leave it out if it is not known")
    return words


def _reading(
    question: Question,
    node: Any,
    file: str,
    line: int | None,
    bare: Unit | None,
    errors: Mapping[str, ToolError] | None,
) -> Reading:
    typed, error = _typed(question, node, file, line)
    try:
        if question.kind == "count":
            reading = read_count(typed)
        else:
            reading = read_length(typed, bare=bare, of=question.of)
            if error is not None:
                reading = reading.blurred(read_length(error, bare=bare or _unit(node)).value, {})
            elif not _is_designation(question, reading, typed, bare):
                reading = _as_taken(reading, question.tool, errors)
    except NotUnderstood as problem:
        raise BrokenFile(file, line, f"{question.id}: {problem}") from None
    low, high = question.low, question.high
    if (low and reading.value < low.value) or (high and reading.value > high.value):
        sensible = f"{low.typed if low else '...'} to {high.typed if high else '...'}"
        raise BrokenFile(file, line, f"{question.id}: {typed} makes no sense here (sensible: {sensible})")
    return reading


def _is_designation(question: Question, reading: Reading, typed: str, bare: Unit | None) -> bool:
    """Whether a pitch is named (48 tpi, 3-48, M2.5) and so exact: not measured, nor over crests."""
    if question.of != "thread_pitch" or reading.parts > 1:
        return False
    try:
        read_length(typed, bare=bare)
    except NotUnderstood:
        return True
    return False


def _as_taken(reading: Reading, tool: str, errors: Mapping[str, ToolError] | None) -> Reading:
    """Widen a reading by the error of the tool it was taken with."""
    if errors is None:
        return reading.blurred(USUAL_ERROR)
    if not reading.tool and tool in errors:
        reading = reading._replace(tool=tool)
    return reading.blurred(USUAL_ERROR, errors)


def _typed(question: Question, node: Any, file: str, line: int | None) -> tuple[str, str | None]:
    """Give the text of a size and of its error: one scalar, or {value, unit, error}."""
    if isinstance(node, str):
        return str(node), None
    if isinstance(node, dict) and "value" in node and not set(node) - {"value", "unit", "error"}:
        parts = {str(key): value for key, value in node.items()}
        if all(isinstance(value, str) for value in parts.values()):
            unit = parts.get("unit", "")
            error = parts.get("error")
            if error is not None and error.replace(".", "").replace(",", "").isdigit():
                error = f"{error} {unit}"
            return f"{parts['value']} {unit}".strip(), error
    raise BrokenFile(
        file, line, f"{question.id}: a size with its unit is wanted (5.2 mm, or value, unit, error)"
    )


def _unit(node: Any) -> Unit | None:
    return node.get("unit") if isinstance(node, dict) else None


def possible(guide: Guide, knowledge: Knowledge) -> tuple[list[int], list[Clash]]:
    """Work out what is still possible for every question; findings are left open.

    Returns:
        A box over all variables, and the clashes found on the way.
    """
    space = guide.space
    box = space.full_box()
    clashes: list[Clash] = []
    for name in guide.question_order:
        variable = space.by_name[name]
        mask = knowledge.masks.get(name)
        if mask is None and name in knowledge.readings:
            mask = variable.full & ~variable.does_not_apply
        applies = guide.applies[name].truth(box) if name in guide.applies else True
        allowed = variable.full
        if name in guide.applies and applies is not None:
            allowed = variable.full & ~variable.does_not_apply if applies else variable.does_not_apply
        left = allowed if mask is None else allowed & mask
        if not left:
            behind = sorted(
                questions_behind(guide, guide.applies[name].vars), key=list(guide.questions).index
            )
            clashes.append(Clash((name, *behind), _clash_words(guide, name, mask, behind, knowledge)))
            left = allowed
        box[variable.index] = left
    return box, clashes


def _clash_words(guide: Guide, name: str, mask: int | None, behind: list[str], knowledge: Knowledge) -> str:
    given = shown(guide, name, knowledge, mask)
    others = "; ".join(
        f"{guide.questions[other].name}: {shown(guide, other, knowledge)}"
        for other in behind
        if other in knowledge.masks
    )
    return f"{guide.questions[name].name}: {given} does not go with {others}"


def shown(guide: Guide, name: str, knowledge: Knowledge, mask: int | None = None) -> str:
    """Word the answer to a question as far as it is known."""
    question = guide.questions[name]
    if name in knowledge.readings:
        return knowledge.readings[name].typed
    mask = knowledge.masks.get(name) if mask is None else mask
    if mask is None:
        return "not known yet"
    return worded(guide, name, mask) if question.answers else "does not apply"


def worded(guide: Guide, name: str, mask: int) -> str:
    """Word the values in `mask` by their labels: the few that are left, or the few that are out."""
    question = guide.questions[name]
    variable = guide.space.by_name[name]
    values = variable.among(mask)
    if len(values) <= 3:
        return " or ".join(readable(question.answers, value) for value in values)
    out = [id for id in question.answers if not mask & variable.having([id])]
    if out and len(out) <= 3:
        return "not " + ", not ".join(question.answers[id] for id in out)
    return "not known yet" if mask == variable.full else f"one of {len(values)}"


def kept_form(node: Any) -> Any:
    """Give an answer as plain text, lists and mappings, as the record keeps it."""
    if isinstance(node, YamlMapping | dict):
        return {str(key): kept_form(value) for key, value in node.items()}
    if isinstance(node, Sequence | list):
        return [kept_form(value) for value in node]
    return str(node)
