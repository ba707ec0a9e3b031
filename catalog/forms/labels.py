"""The forms by which tags and labels of locations are printed."""

from collections.abc import Iterator
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.operations.printed_tags import MOST_TAGS
from catalog.reckoning.label_sheets import (
    BY_SLUG,
    GOOD_MODULE,
    STOCKS,
    LabelStock,
    module_size,
    size_problem,
)

FARTHEST_ASKEW = 10


class LabelForm(forms.Form):
    """On what labels to print, and how they go through the printer."""

    stock = forms.ChoiceField(label="Labels")
    start = forms.IntegerField(
        label="Begin at label",
        min_value=1,
        initial=1,
        help_text="Of a sheet that was begun: 1 is the label at the upper left.",
    )
    right_mm = forms.FloatField(
        label="Print further right, in mm",
        min_value=-FARTHEST_ASKEW,
        max_value=FARTHEST_ASKEW,
        initial=0,
        help_text="If the printer is askew; less than nothing is further left.",
    )
    down_mm = forms.FloatField(
        label="Print further down, in mm",
        min_value=-FARTHEST_ASKEW,
        max_value=FARTHEST_ASKEW,
        initial=0,
    )

    def __init__(self, *args: Any, modules: int, **options: Any) -> None:
        super().__init__(*args, **options)
        self.modules = modules
        self.fields["stock"].choices = list(_choices(modules))  # type: ignore[attr-defined]

    def clean_stock(self) -> LabelStock:
        stock = BY_SLUG[self.cleaned_data["stock"]]
        if problem := size_problem(stock, self.modules):
            raise ValidationError(problem)
        return stock

    def clean(self) -> dict[str, Any]:
        stock, start = self.cleaned_data.get("stock"), self.cleaned_data.get("start")
        if stock and start and start > stock.per_page:
            count = "only 1 label" if stock.per_page == 1 else f"{stock.per_page} labels"
            self.add_error("start", f"There are {count} on a page.")
        return self.cleaned_data


class TagSheetForm(LabelForm):
    field_order = ["stock", "count", "start", "right_mm", "down_mm"]
    count = forms.IntegerField(
        label="How many tags", min_value=1, max_value=MOST_TAGS, initial=STOCKS[0].per_page
    )


class LocationLabelForm(LabelForm):
    field_order = ["below", "stock", "start", "right_mm", "down_mm"]
    below = forms.BooleanField(
        label="And a label for every place inside it", required=False, initial=True
    )


def _choices(modules: int) -> Iterator[tuple[str, str]]:
    for stock in STOCKS:
        size = module_size(stock, modules)
        if size_problem(stock, modules):
            said = "the code would be too small for a phone"
        elif size < GOOD_MODULE:
            said = f"squares of {float(size):g} mm, for reading from close by"
        else:
            said = f"squares of {float(size):g} mm"
        yield stock.slug, f"{stock.name}: {said}"
