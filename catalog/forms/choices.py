"""Long choices that can be searched by typing, by any name that people use."""

from typing import Any

from django import forms

from catalog.models import Characteristic, Component, Source
from catalog.queries.components import characteristics_to_choose, components_to_choose


class SearchSelect(forms.Select):
    """A select with a search field above it; without the script it is a plain select."""

    def __init__(self, attrs: dict[str, Any] | None = None, choices: Any = ()) -> None:
        super().__init__({"data-choice-search": "", **(attrs or {})}, choices)

    def create_option(self, *args: Any, **options: Any) -> dict[str, Any]:
        option = super().create_option(*args, **options)
        record = getattr(option["value"], "instance", None)
        if record is not None and (words := self.other_words(record)):
            option["attrs"]["data-aliases"] = words
        return option

    def other_words(self, record: Any) -> str:
        """Return the words besides the label by which an option is found."""
        return ""


class ComponentSelect(SearchSelect):
    def other_words(self, record: Component) -> str:
        return " ".join(alias.name for alias in record.aliases.all())


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


class CharacteristicSelect(SearchSelect):
    def other_words(self, record: Characteristic) -> str:
        return " ".join(alias.name for alias in record.component.aliases.all())


class CharacteristicChoiceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """One of the characteristics of the components that are kept, named with its component."""

    widget = CharacteristicSelect

    def __init__(self, **options: Any) -> None:
        options.setdefault("queryset", characteristics_to_choose())
        super().__init__(**options)

    def label_from_instance(self, characteristic: Any) -> str:
        return f"{characteristic.component}: {characteristic}"


class SourceChoiceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """The document behind a statement, where there is one."""

    widget = SearchSelect

    def __init__(self, **options: Any) -> None:
        options.setdefault("queryset", Source.objects.kept())
        options.setdefault("label", "Source")
        options.setdefault("empty_label", "no source yet")
        options.setdefault("required", False)
        super().__init__(**options)
