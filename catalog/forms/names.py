"""A text input that proposes names already in the record, without limiting what is typed."""

from collections.abc import Callable, Iterable
from typing import Any

from django import forms


class NamesInput(forms.TextInput):
    """A text input with proposals; ``names`` is asked when the form is shown."""

    template_name = "components/names_input.html"

    def __init__(self, names: Callable[[], Iterable[str]], attrs: dict[str, Any] | None = None):
        super().__init__({"autocomplete": "off", **(attrs or {})})
        self.names = names

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        names_id = f"{(attrs or {}).get('id', name)}_names"
        context = super().get_context(name, value, {**(attrs or {}), "list": names_id})
        return {**context, "names": self.names(), "names_id": names_id}
