"""Fields that take what people write: lengths, vague dates, tag codes."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from catalog.reckoning.edtf_dates import DateError, VagueDate, parse_date
from catalog.reckoning.length_texts import MM_PER_INCH
from catalog.reckoning.lengths import LengthError, parse_clearance, parse_length, why_no_reading

PLACES = Decimal("1e-9")


# Divisions of an inch that people type; what is exact in them is shown so again.
DIVISIONS = 64


def as_decimal_mm(mm: Fraction) -> Decimal:
    """Return a length in mm, rounded to the nine decimals that the record keeps."""
    return (Decimal(mm.numerator) / Decimal(mm.denominator)).quantize(PLACES)


def as_typed(mm: Decimal) -> str:
    """Write a length as somebody may have typed it: 63.103125 mm was 2 31/64 in."""
    parts = Fraction(mm) / MM_PER_INCH * DIVISIONS
    if parts.denominator > 1 or mm == round(mm, 2):
        return f"{mm.normalize():f} mm"
    whole, part = divmod(abs(parts) / DIVISIONS, 1)
    inches = " ".join(str(one) for one in (whole, part) if one)
    return f"{'-' if mm < 0 else ''}{inches} in"


class LengthField(forms.CharField):
    """A length as people write it, read into a ``Length`` that keeps the words."""

    def __init__(self, *, default_unit: str | None = None, **options: Any) -> None:
        options.setdefault("max_length", 60)
        options.setdefault("help_text", "Such as 3 3/4 in, 1' 2 1/2\" or 95 mm.")
        # The field asks for its widget's attributes while it is made.
        self.default_unit = default_unit
        super().__init__(**options)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        attrs = {**super().widget_attrs(widget), "data-length-echo": "", "autocomplete": "off"}
        return {**attrs, "data-unit": self.default_unit} if self.default_unit else attrs

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        try:
            return self.parse(text)
        except LengthError as problem:
            raise ValidationError(str(problem)) from problem

    def parse(self, text: str) -> Any:
        return parse_length(text, default_unit=self.default_unit)


class ReadingField(LengthField):
    """What somebody read off a piece; it is read back with its ±, as it will be recorded."""

    def __init__(self, **options: Any) -> None:
        super().__init__(label="Reading", **options)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {**super().widget_attrs(widget), "data-reading": ""}

    def clean(self, value: Any) -> Any:
        length = super().clean(value)
        if length and (problem := why_no_reading(length)):
            raise ValidationError(problem)
        return length


class MillimeterField(LengthField):
    """A length that the record keeps as plain millimeters."""

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {**super().widget_attrs(widget), "data-plain": ""}

    def parse(self, text: str) -> Any:
        return as_decimal_mm(super().parse(text).mm)

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, Decimal):
            return as_typed(value)
        return value

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare with what the form showed: the record keeps the number without its unit."""
        return super().has_changed(self.prepare_value(initial), data)


class ClearanceField(MillimeterField):
    """How much smaller the inner piece is than the outer one, with a minus where it presses."""

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {**super().widget_attrs(widget), "data-signed": ""}

    def parse(self, text: str) -> Any:
        return as_decimal_mm(parse_clearance(text))


class DateWords(str):
    """The words of a date as typed, with what they were read as."""

    __slots__ = ("date",)

    date: VagueDate | None


class VagueDateField(forms.CharField):
    """A date as people say it: about 1902, the 1890s, before June 1956."""

    def __init__(self, **options: Any) -> None:
        options.setdefault("max_length", 120)
        options.setdefault("help_text", "As people say it: about 1902, 1890s, before June 1956.")
        super().__init__(**options)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {**super().widget_attrs(widget), "data-date-echo": "", "autocomplete": "off"}

    def clean(self, value: Any) -> Any:
        words = DateWords(super().clean(value))
        try:
            words.date = parse_date(words) if words else None
        except DateError as problem:
            raise ValidationError(str(problem)) from problem
        return words
