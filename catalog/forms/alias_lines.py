"""Other names typed in one line, each with the country that uses it in brackets."""

import re
from collections.abc import Iterable
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.models import ComponentAlias

Usage = ComponentAlias.Usage
OtherName = tuple[str, str]

WORDS = {
    "us": Usage.US,
    "usa": Usage.US,
    "american": Usage.US,
    "uk": Usage.UK,
    "gb": Usage.UK,
    "british": Usage.UK,
    "works": Usage.WORKS,
    "local": Usage.WORKS,
    "other": Usage.OTHER,
}
SHOWN = {Usage.US: "US", Usage.UK: "UK", Usage.WORKS: "works"}
NAME = re.compile(r"(?P<name>[^()]+?)\s*(?:\((?P<usage>[^()]*)\))?")
LONGEST = 80


def read_alias_line(line: str) -> list[OtherName]:
    """Read ``axlebox (UK), oil box``: pairs of a name and the usage it has."""
    pieces = (" ".join(piece.split()) for piece in line.split(","))
    names: dict[str, OtherName] = {}
    for piece in pieces:
        if piece:
            name, usage = _read(piece)
            names.setdefault(name.casefold(), (name, usage))
    return list(names.values())


def write_alias_line(aliases: Iterable[ComponentAlias]) -> str:
    """Write other names as they are typed."""
    return ", ".join(
        f"{alias.name} ({SHOWN[usage]})" if (usage := Usage(alias.usage)) in SHOWN else alias.name
        for alias in aliases
    )


class AliasLineField(forms.CharField):
    """Other names in one line, read into pairs of name and usage."""

    def __init__(self, **options: Any) -> None:
        options.setdefault("label", "Other names")
        options.setdefault("required", False)
        options.setdefault(
            "help_text", "With commas between: axlebox (UK), oil box (works), grease box."
        )
        super().__init__(**options)

    def clean(self, value: Any) -> Any:
        return read_alias_line(super().clean(value))


def _read(piece: str) -> OtherName:
    found = NAME.fullmatch(piece)
    if found is None:
        raise ValidationError(f"“{piece}” is not one name. Put commas between names.")
    usage = (found["usage"] or "other").strip().lower()
    if usage not in WORDS:
        raise ValidationError(
            f"“{found['usage']}” is not a usage known here. Write (US), (UK), (works) or nothing."
        )
    if len(found["name"]) > LONGEST:
        raise ValidationError(f"“{found['name'][:30]}…” is too long for a name.")
    return found["name"], WORDS[usage]
