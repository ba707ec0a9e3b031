"""Writing down measurements with the doubt of the instrument that took them."""

from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any, Required, TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalog.models import Characteristic, Instrument, Measurement, Member, Part
from catalog.operations.record import change, record_new, withdraw
from catalog.queries.components import spelling
from catalog.queries.instruments import tool_of
from catalog.queries.measurements import characteristics_of
from catalog.reckoning import uncertainty
from catalog.reckoning.lengths import Length, why_no_reading

PLACES = Decimal("1e-9")
NOTHING_KNOWN = "That is as much as the reading itself, so that nothing would be known. Check it."


class Reading(TypedDict, total=False):
    """What was measured, what was read, and how far it can be trusted."""

    length: Required[Length]
    name: str
    characteristic: Characteristic | None
    instrument: Instrument | None
    allowance_mm: Decimal | None
    uncertainty_mm: Decimal | None
    note: str
    at: datetime | None


@transaction.atomic
def record_measurement(part: Part, *, by: Member, **reading: Unpack[Reading]) -> Measurement:
    """Write down that ``length`` was read at a characteristic of ``part``, or at ``name``.

    Its standard uncertainty comes from the finest division that was typed or from the
    ``instrument``, whichever is larger, and from ``allowance_mm`` each way for rust or wear;
    ``uncertainty_mm`` takes the place of all of these. A name that the identified component
    knows becomes its characteristic. Refuse what the component does not have, naming what it
    has; a part that nobody has identified is measured at whatever people can name.
    """
    told = {
        **_measured_at(part, reading.get("characteristic"), reading.get("name", "").strip()),
        **reading_fields(reading, by=by),
        "part": part,
    }
    return record_new(Measurement, told, by=by, why="measured")


@transaction.atomic
def take_back_measurement(measurement: Measurement, *, by: Member) -> Measurement:
    """Take back a reading that one has written down oneself; it stays in the history."""
    if measurement.measured_by_id != by.pk and not by.is_curator:
        raise ValidationError("Only who wrote it down can take it back, or a curator.")
    return withdraw(measurement, by=by, reason="taken back")


def reading_fields(reading: Reading, *, by: Member) -> dict[str, Any]:
    """Return what was read, with its standard uncertainty, as the record keeps it.

    Refuse what no tool can have read: nothing, a millionth of a millimeter, 1000 km.
    """
    length, instrument = reading["length"], reading.get("instrument")
    if problem := why_no_reading(length):
        raise ValidationError({"length": problem})
    return {
        "text": length.text,
        "value_mm": _decimal(length.mm),
        "resolution_mm": _decimal(length.resolution_mm),
        "instrument": instrument,
        "allowance_mm": reading.get("allowance_mm"),
        "uncertainty_mm": _decimal(standard_uncertainty(reading)),
        "note": reading.get("note", ""),
        "measured_at": reading.get("at") or timezone.now(),
        "measured_by": by,
    }


@transaction.atomic
def tie_to_characteristics(part: Part, *, by: Member) -> None:
    """Tie the measurements of ``part`` to the characteristics of what it turned out to be."""
    known = {spelling(one.name): one for one in characteristics_of(part)}
    for measurement in part.measurements.all():
        characteristic = known.get(spelling(measurement.name))
        if characteristic is not None and measurement.characteristic_id != characteristic.pk:
            told = {"characteristic": characteristic, "name": characteristic.name}
            change(measurement, told, by=by, why="tied to the component's characteristic")


def _measured_at(part: Part, characteristic: Characteristic | None, name: str) -> dict[str, Any]:
    has = characteristics_of(part)
    if characteristic is None:
        by_name = {spelling(one.name): one for one in has}
        characteristic = by_name.get(spelling(name))
    if characteristic is not None and (part.component_id is None or characteristic in has):
        return {"characteristic": characteristic, "name": characteristic.name}
    asked = characteristic.name if characteristic else name
    if not asked:
        raise ValidationError({"name": "Say what was measured."})
    if has or characteristic is not None:
        raise ValidationError({"name": _words(part, asked, [one.name for one in has])})
    return {"characteristic": None, "name": asked}


def _words(part: Part, asked: str, names: list[str]) -> str:
    known = ", ".join(names) or "nothing yet"
    return (
        f"A {part.component} has no “{asked}”. It is measured at: {known}. "
        "A curator can add a characteristic to the component."
    )


def standard_uncertainty(reading: Reading) -> float:
    """Return how far a reading can be trusted, as it is recorded and as it is read back before.

    Refuse an allowance below nothing, an uncertainty of nothing, and either of them as large as
    the reading.
    """
    stated = reading.get("uncertainty_mm")
    if stated is not None:
        if stated <= 0:
            words = "No reading is perfect: give more than 0, or leave it empty."
            raise ValidationError({"uncertainty_mm": words})
        if stated >= reading["length"].mm:
            raise ValidationError({"uncertainty_mm": NOTHING_KNOWN})
        return float(stated)
    taken = uncertainty.take_reading(
        reading["length"], instrument=as_instrument(reading.get("instrument"))
    )
    allowance = float(reading.get("allowance_mm") or 0)
    if allowance < 0:
        raise ValidationError({"allowance_mm": "An allowance is nothing or more."})
    if allowance >= float(reading["length"].mm):
        raise ValidationError({"allowance_mm": NOTHING_KNOWN})
    return uncertainty.add_allowance(taken, less=allowance, more=allowance).uncertainty


def as_instrument(row: Instrument | None) -> uncertainty.Instrument | None:
    """Return the instrument of the record as the reckoning takes it."""
    if row is None:
        return None
    return tool_of(row)


def _decimal(number: float | Fraction) -> Decimal:
    exact = Fraction(number)
    return (Decimal(exact.numerator) / exact.denominator).quantize(PLACES)
