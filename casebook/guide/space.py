"""The variables of a guide: every question and finding with its values, and conditions written over them."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from casebook.guide.logic import (
    AllOf,
    AnyOf,
    Condition,
    Expr,
    Literal,
    Not,
    Tangled,
    compile_condition,
)  # fmt: skip
from casebook.guide.pack import DOES_NOT_APPLY, NOT_KNOWN, Question
from casebook.shape import nearest
from casebook.strict_yaml import BrokenFile, Sequence, Text, line_of
from casebook.strict_yaml import Mapping as YamlMapping

# A fact about the answers as a whole: whether some of them cannot all be right.
ANSWERS_DISAGREE = "answers_disagree"
_GIVEN = "given"
MAX_COMBINATIONS = 4096

Value = frozenset[str]


@dataclass(frozen=True, slots=True)
class Variable:
    """One thing that can be answered or found.

    Attributes:
        name: the id of the question or finding.
        index: its place in a box.
        values: each a set of answer ids (one id, except where several answers may hold together), a bit
            each in this order.
        words: the answer ids a condition may name.
        full: the mask of all values.
        does_not_apply: the mask of 'does not apply', zero where it always applies.
        measured: whether it is a measured size, of which a condition may only ask whether it applies.
    """

    name: str
    index: int
    values: tuple[Value, ...]
    words: frozenset[str]
    full: int
    does_not_apply: int
    measured: bool = False

    def mask(self, allowed: Callable[[Value], bool]) -> int:
        """Give the mask of the values for which `allowed` is true."""
        return sum(1 << bit for bit, value in enumerate(self.values) if allowed(value))

    def having(self, words: Iterable[str]) -> int:
        """Give the mask of the values that include one of `words`."""
        wanted = frozenset(words)
        return self.mask(lambda value: not wanted.isdisjoint(value))

    def exactly(self, words: Iterable[str]) -> int:
        """Give the mask of the value that is just `words`."""
        wanted = frozenset(words)
        return self.mask(lambda value: value == wanted)

    def among(self, mask: int) -> list[Value]:
        """List the values in `mask`."""
        return [value for bit, value in enumerate(self.values) if mask >> bit & 1]


def question_values(question: Question) -> tuple[Value, ...]:
    """List the values a question can have, 'does not apply' last where it may not apply.

    Raises:
        ValueError: more combinations of answers than can be handled.
    """
    ids = list(question.answers)
    if question.measured:
        values = [frozenset([_GIVEN])]
    elif question.kind == "several":
        values = _combinations(question)
    else:
        values = [frozenset([id]) for id in ids]
    if question.asked_when is not None:
        values.append(frozenset([DOES_NOT_APPLY]))
    return tuple(values)


def _combinations(question: Question) -> list[Value]:
    """List the sets of answers that can hold together, small ones first, each in the pack's order."""
    place = {id: n for n, id in enumerate(question.answers)}
    sets: list[Value] = [frozenset()]
    for id in question.answers:
        for others in list(sets):
            together = others | {id}
            lonely = len(together) > 1 and not question.alone.isdisjoint(together)
            if not lonely and all(len(group & together) < 2 for group in question.apart):
                sets.append(together)
        if len(sets) > MAX_COMBINATIONS:
            raise ValueError(f"more than {MAX_COMBINATIONS} combinations of answers: set more of them apart")
    return sorted(sets[1:], key=lambda one: (len(one), sorted(place[id] for id in one)))


class Space:
    """All variables of a guide, and the reading of conditions over them."""

    def __init__(self) -> None:
        self.variables: list[Variable] = []
        self._full: list[int] = []
        self.by_name: dict[str, Variable] = {}
        self.terms: dict[str, Expr] = {}
        self.knowing: dict[str, int] = {}

    def add(self, name: str, values: Iterable[Value], *, measured: bool = False) -> Variable:
        """Add a variable."""
        values = tuple(values)
        words = frozenset(word for value in values for word in value) - {_GIVEN}
        full = (1 << len(values)) - 1
        absent = sum(1 << bit for bit, value in enumerate(values) if DOES_NOT_APPLY in value)
        variable = Variable(name, len(self.variables), values, words, full, absent, measured)
        self.variables.append(variable)
        self._full.append(full)
        self.by_name[name] = variable
        return variable

    def full_box(self) -> list[int]:
        """Give the box in which everything is possible."""
        return list(self._full)

    def condition(self, node: Any, file: str, what: str, *, unknowing: bool = False) -> Condition:
        """Read and compile a condition.

        Args:
            node: the YAML node.
            file: how messages call the file.
            what: whose condition it is, for messages.
            unknowing: whether it may ask what is not known yet.

        Raises:
            BrokenFile: an unknown id, a wrong form, or too tangled.
        """
        expr = self.expression(node, file, what, unknowing=unknowing)
        return self.compiled(expr, file, line_of(node), what)

    def compiled(self, expr: Expr, file: str, line: int | None, what: str) -> Condition:
        """Compile an expression already read."""
        try:
            return compile_condition(expr, self._full)
        except Tangled as error:
            raise BrokenFile(file, line, f"{what}: {error}") from None

    def expression(self, node: Any, file: str, what: str, *, unknowing: bool = False) -> Expr:
        """Read a condition without compiling it; see `condition`."""
        if isinstance(node, Sequence):
            raise BrokenFile(file, node.line, f"{what}: a list is no condition; write all: or any: before it")
        if not isinstance(node, YamlMapping) or not node:
            raise BrokenFile(file, line_of(node), f"{what}: a condition is wanted here (question: answer)")
        parts = [self._entry(key, value, file, what, unknowing) for key, value in node.items()]
        return parts[0] if len(parts) == 1 else AllOf(tuple(parts))

    def _entry(self, key: str, value: Any, file: str, what: str, unknowing: bool) -> Expr:
        if key in ("all", "any"):
            if not isinstance(value, Sequence) or not value:
                raise BrokenFile(file, line_of(key), f"{what}: {key} wants a list of conditions")
            parts = tuple(self.expression(part, file, what, unknowing=unknowing) for part in value)
            return AllOf(parts) if key == "all" else AnyOf(parts)
        if key == "not":
            return Not(self.expression(value, file, what, unknowing=unknowing))
        if key == NOT_KNOWN:
            return self._not_known(key, value, file, what, unknowing)
        if key in self.terms:
            words = self._words(value, frozenset(("yes", "no")), file, f"{what}: {key}")
            if len(words) > 1:
                raise BrokenFile(file, line_of(key), f"{what}: {key}: yes or no is wanted, not both")
            return self.terms[key] if words == ["yes"] else Not(self.terms[key])
        variable = self.by_name.get(key)
        if variable is None:
            hint = nearest(key, [*self.by_name, *self.terms])
            raise BrokenFile(file, line_of(key), f"{what}: unknown question or finding {str(key)!r}{hint}")
        return Literal(variable.index, self._mask(variable, value, file, f"{what}: {key}"))

    def _mask(self, variable: Variable, value: Any, file: str, what: str) -> int:
        if isinstance(value, YamlMapping):
            if len(value) != 1 or next(iter(value)) not in ("not", "all", "only"):
                raise BrokenFile(file, value.line, f"{what}: not, all or only is wanted here")
            form, inner = next(iter(value.items()))
            words = self._allowed(variable, inner, file, what)
            if form == "not":
                return variable.full & ~variable.having(words)
            if form == "only":
                return variable.exactly(words)
            return variable.mask(lambda held: held.issuperset(words))
        return variable.having(self._allowed(variable, value, file, what))

    def _allowed(self, variable: Variable, value: Any, file: str, what: str) -> list[str]:
        words = self._words(value, variable.words, file, what)
        if variable.measured and words != [DOES_NOT_APPLY]:
            line = line_of(value)
            raise BrokenFile(file, line, f"{what}: a size is compared in a finding, not in a condition")
        return words

    @staticmethod
    def _words(value: Any, allowed: frozenset[str], file: str, what: str) -> list[str]:
        nodes = value if isinstance(value, Sequence) else [value]
        words = []
        for node in nodes:
            if not isinstance(node, Text):
                raise BrokenFile(file, line_of(node), f"{what}: an answer id is wanted here")
            if node not in allowed:
                known = ", ".join(sorted(allowed)) if len(allowed) <= 12 else ""
                hint = nearest(node, allowed) or (f" (known: {known})" if known else "")
                raise BrokenFile(file, node.line, f"{what}: unknown answer {str(node)!r}{hint}")
            words.append(str(node))
        if not words:
            raise BrokenFile(file, line_of(value), f"{what}: at least one answer is wanted")
        return words

    def _not_known(self, key: str, value: Any, file: str, what: str, unknowing: bool) -> Expr:
        if not unknowing:
            raise BrokenFile(
                file,
                line_of(key),
                f"{what}: what is not known may trigger a caution, a stop or a rank, nothing else",
            )
        questions = frozenset(name for name, v in self.by_name.items() if not name.startswith("?"))
        names = self._words(value, questions, file, f"{what}: not_known")
        return AllOf(tuple(Literal(self.knowing_of(name), 0b10) for name in names))

    def knowing_of(self, name: str) -> int:
        """Give the variable that says whether `name` is known (first value) or not (second)."""
        if name not in self.knowing:
            variable = self.add(f"?{name}", (frozenset(["known"]), frozenset([NOT_KNOWN])))
            self.knowing[name] = variable.index
        return self.knowing[name]

    def settle_knowing(self, box: list[int], read: Container[str]) -> None:
        """Set in `box`, for every variable asked for, whether it is known.

        A choice is known when one value is left; a size when it is among those `read`, or does not apply.
        """
        for name, index in self.knowing.items():
            variable = self.by_name[name]
            left = box[variable.index]
            known = left.bit_count() == 1
            if variable.measured and left != variable.does_not_apply:
                known = name in read
            box[index] = 0b01 if known else 0b10


def readable(values: Mapping[str, str], value: Value) -> str:
    """Word a value by the labels of its answers."""
    if DOES_NOT_APPLY in value:
        return "does not apply"
    return " and ".join(values.get(word, word) for word in sorted(value, key=list(values).index))
