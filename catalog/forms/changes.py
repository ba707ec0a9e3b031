"""Between which days, of which kind and by whom changes are asked for."""

import datetime as dt
from typing import Any

from django import forms

from catalog.forms.days import DayInput
from catalog.models import Member, Role
from catalog.queries.deeds import Kind
from catalog.queries.spans import Span, midnight

DAY = dt.timedelta(days=1)


class ChangesForm(forms.Form):
    """The days are whole days, the last one included."""

    since = forms.DateField(label="From", widget=DayInput)
    until = forms.DateField(label="To", required=False, widget=DayInput)
    person = forms.ModelChoiceField(
        label="By",
        queryset=Member.objects.exclude(role=Role.VISITOR),
        required=False,
        empty_label="everybody",
    )
    kind = forms.ChoiceField(
        label="What", required=False, choices=[("", "everything"), *Kind.choices]
    )

    def clean(self) -> dict[str, Any]:
        """Refuse days in the wrong order."""
        told = super().clean() or self.cleaned_data
        since, until = told.get("since"), told.get("until")
        if since and until and until < since:
            self.add_error("until", "The last day is before the first. Change one of them.")
        return told

    @property
    def span(self) -> Span:
        """Return from the beginning of the first day to the end of the last."""
        told = self.cleaned_data
        person = told["person"]
        return Span(
            midnight(told["since"]),
            midnight(told["until"] + DAY) if told["until"] else None,
            by=person.pk if person else None,
        )
