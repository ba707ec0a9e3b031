"""Long choices that can be searched by typing, by any name that people use."""

from typing import Any

from django import forms

from catalog.queries.components import components_to_choose


class SearchSelect(forms.Select):
    """A select with a search field above it; without the script it is a plain select."""

    def __init__(self, attrs: dict[str, Any] | None = None, choices: Any = ()) -> None:
        super().__init__({"data-choice-search": "", **(attrs or {})}, choices)


class ComponentSelect(SearchSelect):
    """Options that are found by the aliases of a component as well."""

    def create_option(self, *args: Any, **options: Any) -> dict[str, Any]:
        option = super().create_option(*args, **options)
        component = getattr(option["value"], "instance", None)
        if component is not None:
            aliases = " ".join(alias.name for alias in component.aliases.all())
            option["attrs"]["data-aliases"] = aliases
        return option


class ComponentChoiceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """One of the components that are kept."""

    widget = ComponentSelect
    default_error_messages = {
        "invalid_choice": "This component is no longer in the catalog. Choose another one."
    }

    def __init__(self, **options: Any) -> None:
        options.setdefault("queryset", components_to_choose())
        options.setdefault("label", "Component")
        options.setdefault("empty_label", "not known yet")
        super().__init__(**options)
