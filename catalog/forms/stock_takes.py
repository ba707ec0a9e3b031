"""The form of a stock-take: what was scanned, one code or number a line."""

from django import forms
from django.core.exceptions import ValidationError

from catalog.forms.places import SCANNED

LONGEST_COUNT = 2_000


class StockTakeForm(forms.Form):
    pieces = forms.CharField(
        label="What lies here, one a line",
        max_length=60_000,
        required=False,
        widget=forms.Textarea(attrs={"rows": 10, **SCANNED}),
        help_text="Scan or type tags or numbers. Leave it empty when nothing was found at all.",
    )

    def clean_pieces(self) -> list[str]:
        lines = [line.strip() for line in self.cleaned_data["pieces"].splitlines() if line.strip()]
        if len(lines) > LONGEST_COUNT:
            raise ValidationError(
                f"These are {len(lines)} lines; count at most {LONGEST_COUNT} at once, "
                "shelf by shelf."
            )
        return lines
