"""The pages of instruments: who sees and changes them, and how a ± is told or worked out."""

import pytest
from django.urls import reverse

from catalog.models import Instrument
from catalog.operations.record import withdraw
from tests.factories import MeasurementFactory

pytestmark = pytest.mark.django_db

ADD = "/instruments/add/"


def typed(**values):
    return {"name": "Bore gauge", "note": "", **values}


def sent(client, **values):
    return client.post(ADD, typed(**values))


@pytest.fixture
def caliper(db):
    return Instrument.objects.get(slug="vernier-caliper")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"uncertainty_mm": "0.01 mm"}, 0.01),
        # a/√3 of what the maker states (EURACHEM/CITAC, E.1)
        ({"greatest_error": "0.05 mm"}, 0.0288675),
        # Half a division over √3 (JCGM 100, F.2.2.1): 1/32 in is 0.79375 mm.
        ({"resolution_mm": "1/32 in"}, 0.2291359),
        ({"resolution_mm": "1 mm", "greatest_error": "0.05 mm"}, 0.2886751),
    ],
)
def test_standard_uncertainty_is_taken_or_worked_out(as_curator, values, told):
    answer = sent(as_curator, **values)

    made = Instrument.objects.get(name="Bore gauge")
    assert answer.url == made.get_absolute_url()
    assert float(made.uncertainty_mm) == pytest.approx(told, abs=1e-7)


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({}, "Say how far it may be off, or give its finest division."),
        (
            {"greatest_error": "0.05 mm", "uncertainty_mm": "0.01 mm"},
            "Give one of the two: this, or how far it may be off.",
        ),
        ({"resolution_mm": "0.02"}, "has no unit"),
        (
            {"resolution_mm": "1/8 in", "uncertainty_mm": "0.11 mm"},
            "Reading to the nearest division alone makes ± 0.92 mm",
        ),
        ({"name": "vernier caliper, 0.02 mm", "resolution_mm": "1 mm"}, "of this name already"),
        ({"greatest_error": "3000 mm"}, "“3000 mm” is a meter or more"),
        ({"greatest_error": "0 mm"}, "No instrument is perfect: give more than 0 mm."),
        ({"uncertainty_mm": "0 mm"}, "No instrument is perfect: give more than 0 mm."),
        ({"resolution_mm": "-1 mm"}, "is below zero"),
    ],
)
def test_what_makes_no_sense_is_refused_and_kept(as_curator, values, words):
    answer = sent(as_curator, **values)

    page = answer.content.decode()
    assert words in page
    assert all(f'value="{text}"' in page for text in typed(**values).values() if text)
    assert not Instrument.objects.filter(name="Bore gauge").exists()


def as_shown(client, instrument):
    """Return what the form of an instrument holds when it is opened."""
    form = client.get(reverse("instrument-change", args=[instrument.pk])).context["form"]
    return {
        field.name: field.field.prepare_value(field.value())
        for field in form.visible_fields()
        if field.value() is not None
    }


def test_greatest_error_takes_the_place_of_what_was_known(as_curator, caliper):
    address = reverse("instrument-change", args=[caliper.pk])

    as_curator.post(address, {**as_shown(as_curator, caliper), "greatest_error": "0.1 mm"})

    caliper.refresh_from_db()
    assert float(caliper.uncertainty_mm) == pytest.approx(0.0577350, abs=1e-7)


def test_change_that_says_nothing_of_the_doubt_leaves_it(as_curator, caliper):
    address = reverse("instrument-change", args=[caliper.pk])
    before = caliper.uncertainty_mm

    as_curator.post(address, {**as_shown(as_curator, caliper), "note": "checked against blocks"})

    caliper.refresh_from_db()
    assert (caliper.uncertainty_mm, caliper.note) == (before, "checked against blocks")


def test_page_tells_what_a_reading_is_worth_and_what_was_read(signed_in, caliper):
    reading = MeasurementFactory(instrument=caliper)

    page = signed_in.get(caliper.get_absolute_url()).content.decode()

    assert "63.500 ± 0.029 mm" in page
    assert str(reading.part) in page
    assert reverse("instrument-change", args=[caliper.pk]) not in page
    listed = signed_in.get("/instruments/").content.decode()
    assert "± 0.029 mm" in listed
    assert "± 0.11 mm" in listed


def test_instrument_out_of_use_is_offered_no_more_and_can_come_back(as_curator, caliper, curator):
    part = MeasurementFactory(instrument=caliper).part
    withdraw(caliper, by=curator, reason="dropped; the jaws are bent")

    address = reverse("part-measure", args=[part.pk])
    assert caliper.name not in as_curator.get(address).content.decode()
    assert caliper.name in as_curator.get("/instruments/").content.decode()
    assert "the jaws are bent" in as_curator.get(caliper.get_absolute_url()).content.decode()

    as_curator.post(reverse("record-bring-back", args=["instrument", caliper.pk]))
    caliper.refresh_from_db()
    assert not caliper.is_withdrawn


def test_reading_that_was_under_way_when_its_instrument_was_withdrawn_is_taken(
    as_curator, caliper, curator
):
    part = MeasurementFactory().part
    withdraw(caliper, by=curator, reason="lost")
    address = reverse("part-measure", args=[part.pk])

    values = {"name": "bore", "length": "63.6 mm", "instrument": caliper.pk}
    as_curator.post(address, {f"measurement-{name}": value for name, value in values.items()})

    assert part.measurements.get(name="bore").instrument == caliper


@pytest.mark.parametrize("address", ["/instruments/", ADD])
def test_visitors_see_no_instruments(as_visitor, client, address):
    assert as_visitor.get(address).status_code == 403


def test_volunteers_change_no_instruments(signed_in, caliper):
    assert signed_in.get(ADD).status_code == 403
    assert signed_in.get(reverse("instrument-change", args=[caliper.pk])).status_code == 403


def test_lists_take_the_same_queries_for_few_and_many(as_curator, count_queries, caliper):
    few = count_queries(as_curator, "/instruments/")
    for name in "abc":
        Instrument.objects.create(name=name, slug=name, uncertainty_mm=1)
        MeasurementFactory(instrument=caliper)

    assert count_queries(as_curator, "/instruments/") == few
    one = count_queries(as_curator, caliper.get_absolute_url())
    MeasurementFactory(instrument=caliper)
    assert count_queries(as_curator, caliper.get_absolute_url()) == one


def test_history_tells_of_the_division_and_begins_with_the_first_change(as_curator, caliper):
    address = reverse("record-history", args=["instrument", caliper.pk])
    assert "It is as it came with the catalog." in as_curator.get(address).content.decode()

    change = reverse("instrument-change", args=[caliper.pk])
    as_curator.post(change, {**as_shown(as_curator, caliper), "name": "Caliper"})
    as_curator.post(change, {**as_shown(as_curator, caliper), "resolution_mm": "0.05 mm"})

    page = as_curator.get(address).content.decode()
    assert "Finest division in mm" in page
    assert "0.05" in page
