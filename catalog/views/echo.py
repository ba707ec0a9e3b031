"""Reads lengths and dates back while they are typed, before anything is saved."""

from django.http import JsonResponse
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Instrument
from catalog.operations.measurements import as_instrument
from catalog.reckoning import uncertainty
from catalog.reckoning.edtf_dates import DateError, VagueDate, parse_date
from catalog.reckoning.length_texts import format_doubtful, format_inches
from catalog.reckoning.lengths import UNITS, Length, LengthError, parse_length
from catalog.views.fetch import require


@require_safe
def echo_length(request: MemberRequest) -> JsonResponse:
    require(request)
    unit = request.GET.get("unit")
    try:
        length = parse_length(
            request.GET.get("text", ""), default_unit=unit if unit in UNITS else None
        )
    except LengthError as problem:
        return JsonResponse({"reading": "", "problem": str(problem)})
    reading = length_in_words(length, _instrument(request.GET.get("instrument", "")))
    return JsonResponse({"reading": reading, "problem": ""})


@require_safe
def echo_date(request: MemberRequest) -> JsonResponse:
    require(request)
    try:
        date = parse_date(request.GET.get("text", ""))
    except DateError as problem:
        return JsonResponse({"reading": "", "problem": str(problem)})
    return JsonResponse({"reading": date_in_words(date), "problem": ""})


def _instrument(key: str) -> uncertainty.Instrument | None:
    """Return the instrument that was chosen, if one was."""
    row = Instrument.objects.filter(pk=key).first() if key.isdecimal() else None
    return as_instrument(row)


def length_in_words(length: Length, instrument: uncertainty.Instrument | None = None) -> str:
    """Say a length in both systems, with the doubt that its typed step and its tool imply."""
    taken = uncertainty.take_reading(length, instrument=instrument)
    return f"{format_inches(length.mm)} = {format_doubtful(length.mm, taken.uncertainty)}"


def date_in_words(date: VagueDate) -> str:
    """Say a date and, where the words leave them open, the days that it can mean."""
    if date.is_unknown:
        return "date not known"
    days = [f"{day:%-d %B %Y}" if day else "…" for day in (date.earliest, date.latest)]
    if days[0] == days[1]:
        return date.in_words()
    return f"{date.in_words()}: {days[0]} to {days[1]}"
