"""Long choices that can be searched by typing, by any name that people use."""

from collections.abc import Iterable, Iterator
from typing import Any

from django import forms
from django.forms.models import ModelChoiceIterator
from django.forms.utils import flatatt
from django.utils.html import escape, format_html
from django.utils.safestring import SafeString, mark_safe

from catalog.models import Characteristic, Citation, Component, Instrument, Source
from catalog.queries.components import characteristics_to_choose, components_to_choose


class SearchSelect(forms.Select):
    """A select of records with a search field above it; without the script it is a plain select."""

    def __init__(self, attrs: dict[str, Any] | None = None, choices: Any = ()) -> None:
        super().__init__({"data-choice-search": "", **(attrs or {})}, choices)

    def render(self, name: str, value: Any, attrs: Any = None, renderer: Any = None) -> SafeString:
        """Write the options one behind the other.

        A template for each of three hundred would take longer than all else on a page.
        """
        chosen = set(self.format_value(value))
        options = mark_safe("".join(self._options(chosen)))  # noqa: S308 - all parts are escaped
        own = flatatt(self.build_attrs({"name": name, **self.attrs}, attrs))
        return format_html("<select{}>{}</select>", own, options)

    def _options(self, chosen: set[str]) -> Iterator[str]:
        for value, label in self.choices:
            selected = " selected" if str(value) in chosen else ""
            record = getattr(value, "instance", None)
            words = self.other_words(record) if record is not None else ""
            aliases = f' data-aliases="{escape(words)}"' if words else ""
            yield f'<option value="{escape(value)}"{selected}{aliases}>{escape(label)}</option>'

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


class _InUse(ModelChoiceIterator):
    """Offer those in use, whatever else is accepted."""

    def __init__(self, field: Any) -> None:
        super().__init__(field)
        self.queryset = field.queryset.kept()


class InstrumentChoiceField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """One of the instruments in use.

    One that was withdrawn after the page was opened, or while a piece waited on a phone for a
    signal, is taken all the same: the reading was taken with it.
    """

    iterator = _InUse

    def __init__(self, **options: Any) -> None:
        options.setdefault("label", "With")
        options.setdefault("required", False)
        options.setdefault("empty_label", "not said: trust the finest division that was typed")
        super().__init__(Instrument.objects.all(), **options)


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

    def say_behind(self, citations: Iterable[Citation]) -> None:
        """Say which sources stand behind a statement already: one chosen here comes besides."""
        if named := "; ".join(str(citation) for citation in citations):
            self.help_text = f"Behind it already: {named}. A source chosen here is added to it."
            self.empty_label = "no further source"
