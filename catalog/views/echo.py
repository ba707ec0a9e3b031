"""Reads lengths and dates back while they are typed, before anything is saved."""

from decimal import Decimal
from fractions import Fraction

from django.core.exceptions import ValidationError
from django.http import HttpRequest, JsonResponse
from django.views.decorators.http import require_safe

from catalog.forms.fields import MillimeterField
from catalog.http import MemberRequest
from catalog.models import Instrument
from catalog.operations.measurements import Reading, standard_uncertainty
from catalog.reckoning.edtf_dates import DateError, VagueDate, parse_date
from catalog.reckoning.length_texts import format_doubtful, format_inches, plain_decimal, rounded
from catalog.reckoning.lengths import (
    UNITS,
    Length,
    LengthError,
    parse_clearance,
    parse_length,
    why_no_reading,
)
from catalog.views.fetch import require


@require_safe
def echo_length(request: MemberRequest) -> JsonResponse:
    """Say a length in both systems: a reading with its ±, any other as ``plain``."""
    require(request)
    try:
        said = _length_in_words(request)
    except LengthError as problem:
        return JsonResponse({"reading": "", "problem": str(problem)})
    except ValidationError as refusal:
        return JsonResponse({"reading": "", "problem": " ".join(refusal.messages)})
    return JsonResponse({"reading": said, "problem": ""})


def _length_in_words(request: HttpRequest) -> str:
    text, unit = request.GET.get("text", ""), request.GET.get("unit")
    known = unit if unit in UNITS else None
    if "signed" in request.GET:
        return in_both_systems(parse_clearance(text, default_unit=known))
    length = parse_length(text, default_unit=known)
    if "plain" in request.GET:
        return in_both_systems(length.mm)
    return reading_in_words(_reading(request, length))


@require_safe
def echo_date(request: MemberRequest) -> JsonResponse:
    require(request)
    try:
        date = parse_date(request.GET.get("text", ""))
    except DateError as problem:
        return JsonResponse({"reading": "", "problem": str(problem)})
    return JsonResponse({"reading": date_in_words(date), "problem": ""})


def _reading(request: HttpRequest, length: Length) -> Reading:
    """Return what stands in the form: how it was read, and how far it may be off."""
    key = request.GET.get("instrument", "")
    instrument = Instrument.objects.filter(pk=key).first() if key.isdecimal() else None
    return {
        "length": length,
        "instrument": instrument,
        "allowance_mm": _millimeters(request.GET.get("allowance", "")),
        "uncertainty_mm": _millimeters(request.GET.get("uncertainty", "")),
    }


def _millimeters(text: str) -> Decimal | None:
    """Return a length of another field; what is wrong with it is told beside that field."""
    try:
        found: Decimal | None = MillimeterField(required=False).clean(text)
    except ValidationError:
        return None
    return found


def reading_in_words(reading: Reading) -> str:
    """Say a reading in both systems, with the ± that is going to be recorded."""
    length = reading["length"]
    if problem := why_no_reading(length):
        raise LengthError(problem)
    doubtful = format_doubtful(length.mm, standard_uncertainty(reading))
    return f"{format_inches(length.mm)} = {doubtful}"


def in_both_systems(mm: Fraction) -> str:
    metric = plain_decimal(rounded(mm, 3)).replace("-", "−")
    return f"{format_inches(mm)} = {metric} mm"


def date_in_words(date: VagueDate) -> str:
    """Say a date and, where the words leave them open, the days that it can mean."""
    if date.is_unknown:
        return "date not known"
    days = [f"{day:%-d %B %Y}" if day else "…" for day in (date.earliest, date.latest)]
    if days[0] == days[1]:
        return date.in_words()
    return f"{date.in_words()}: {days[0]} to {days[1]}"
