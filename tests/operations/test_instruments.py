"""Instruments of the group: recorded, changed, taken out of use, and refused in words."""

from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Instrument
from catalog.operations.instruments import change_instrument, record_instrument
from catalog.operations.measurements import record_measurement
from catalog.operations.record import bring_back, withdraw
from catalog.reckoning.lengths import parse_length
from tests.factories import PartFactory

pytestmark = pytest.mark.django_db

GAUGE = {
    "name": "Telescopic gauge",
    "resolution_mm": Decimal("0.01"),
    "uncertainty_mm": Decimal("0.02"),
    "note": "Set over a micrometer.",
}


def reading(instrument, by, text="63.50 mm"):
    return record_measurement(
        PartFactory(), name="bore", length=parse_length(text), instrument=instrument, by=by
    )


def test_new_instrument_comes_last_and_gives_readings_its_doubt(curator):
    gauge = record_instrument(GAUGE, by=curator)

    assert Instrument.objects.last() == gauge
    assert gauge.history.get().history_user == curator
    assert reading(gauge, curator).uncertainty_mm == Decimal("0.02")


def test_what_was_read_before_keeps_its_doubt(curator):
    gauge = record_instrument(GAUGE, by=curator)
    before = reading(gauge, curator)

    change_instrument(gauge, {"uncertainty_mm": Decimal("0.05")}, by=curator)

    before.refresh_from_db()
    assert before.uncertainty_mm == Decimal("0.02")
    assert reading(gauge, curator).uncertainty_mm == Decimal("0.05")


def test_name_of_an_instrument_in_use_is_refused_and_free_after_its_withdrawal(curator):
    first = record_instrument(GAUGE, by=curator)
    with pytest.raises(ValidationError, match="There is an instrument of this name already"):
        record_instrument({**GAUGE, "name": "TELESCOPIC GAUGE"}, by=curator)

    withdraw(first, by=curator, reason="lost")
    second = record_instrument(GAUGE, by=curator)

    assert second.slug != first.slug
    with pytest.raises(ValidationError, match="There is an instrument of this name already"):
        bring_back(first, by=curator)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"uncertainty_mm": Decimal(0)}, "No instrument is perfect"),
        ({"uncertainty_mm": Decimal(-1)}, "No instrument is perfect"),
        ({"resolution_mm": Decimal(0)}, "The finest division is more than nothing"),
    ],
)
def test_impossible_instrument_is_refused_by_the_database(curator, wrong, words):
    with pytest.raises(ValidationError, match=words):
        record_instrument({**GAUGE, **wrong}, by=curator)
