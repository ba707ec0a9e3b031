"""Several positions typed at once, one line each: ``L1/R1 journal box, running gear``."""

import re
from collections.abc import Iterator
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.operations.positions import PositionLine
from catalog.queries.components import ComponentNames

LINE = re.compile(r"(?P<codes>[^\s,]+)\s+(?P<component>[^,]+)(?:,(?P<rest>.*))?")
NOT_ESSENTIAL = {"optional", "not essential"}
MOST_LINES = 500


def read_position_lines(text: str) -> list[PositionLine]:
    """Read every line, or refuse with all that is wrong, line by line."""
    names = ComponentNames.gather()
    lines: list[PositionLine] = []
    problems: list[str] = []
    for number, line in enumerate(text.splitlines(), start=1):
        try:
            lines += _read(" ".join(line.split()), names)
        except ValueError as problem:
            problems.append(f"Line {number}: {problem}")
    problems += _typed_twice(lines)
    if problems:
        raise ValidationError(problems)
    return lines


class PositionLinesField(forms.CharField):
    """Positions, one line each."""

    widget = forms.Textarea

    def __init__(self, **options: Any) -> None:
        options.setdefault("label", "Positions, one a line")
        options.setdefault(
            "help_text",
            "Code, component, and after commas the assembly and “optional”: "
            "L1/R1/L2/R2 journal box, running gear.",
        )
        options.setdefault("max_length", 100 * MOST_LINES)
        super().__init__(**options)

    def clean(self, value: Any) -> Any:
        return read_position_lines(super().clean(value))


def _read(line: str, names: ComponentNames) -> Iterator[PositionLine]:
    if not line:
        return
    found = LINE.fullmatch(line)
    if found is None:
        raise ValueError(f"“{line}” is not a code and a component, such as L1 journal box.")
    called = names.called(found["component"])
    if not called:
        raise ValueError(
            f"no component is called “{found['component'].strip()}”. Add it first, or use "
            "another of its names."
        )
    if len(called) > 1:
        which = " or ".join(component.name for component in called)
        raise ValueError(f"“{found['component'].strip()}” can be {which}. Write which one.")
    words = [word.strip() for word in (found["rest"] or "").split(",") if word.strip()]
    told = [word for word in words if word.lower() not in NOT_ESSENTIAL]
    if len(told) > 1:
        raise ValueError(f"“{', '.join(told)}” is more than one assembly.")
    assembly, is_essential = "".join(told), told == words
    for code in found["codes"].split("/"):
        if code:
            yield PositionLine(code.upper(), called[0], assembly, is_essential)


def _typed_twice(lines: list[PositionLine]) -> list[str]:
    seen: set[tuple[str, int]] = set()
    problems = []
    for line in lines:
        key = (line.code, line.component.pk)
        if key in seen:
            problems.append(f"{line.code} {line.component} is there twice.")
        seen.add(key)
    return problems
