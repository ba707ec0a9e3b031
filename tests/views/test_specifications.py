"""Limits on the screen."""

from decimal import Decimal

import pytest
from django.urls import reverse

from catalog.models import Specification
from tests.factories import (
    CharacteristicFactory,
    CitationFactory,
    PositionFactory,
    SourceFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def bore():
    return CharacteristicFactory(name="bore", component__name="journal box")


@pytest.fixture
def class_e(bore):
    return PositionFactory(code="L1", component=bore.component).vehicle_class


def test_limits_are_read_as_people_write_them(as_curator, class_e, bore):
    typed = {"characteristic": bore.pk, "lower_mm": '2 1/2"', "upper_mm": "64 mm"}
    worn = {"worn_lower_mm": "2 3/8 in", "is_required": "on", "source": SourceFactory().pk}

    as_curator.post(reverse("specification-add", args=[class_e.pk]), {**typed, **worn})

    row = Specification.objects.get()
    assert (row.lower_mm, row.upper_mm) == (Decimal("63.5"), Decimal(64))
    assert (row.worn_lower_mm, row.worn_upper_mm) == (Decimal("60.325"), None)
    assert row.citations.count() == 1


def test_limits_are_read_as_a_drawing_writes_them(as_curator, class_e, bore):
    typed = {"characteristic": bore.pk, "as_drawn": "2 1/2 in +0 −1/16"}

    as_curator.post(reverse("specification-add", args=[class_e.pk]), typed)

    row = Specification.objects.get()
    assert (row.lower_mm, row.upper_mm) == (Decimal("61.9125"), Decimal("63.5"))


def test_limits_that_no_drawing_writes_are_refused_beside_the_field(as_curator, class_e, bore):
    typed = {"characteristic": bore.pk, "as_drawn": "2 1/2 in or so"}

    answer = as_curator.post(reverse("specification-add", args=[class_e.pk]), typed)

    errors = answer.context["form"].errors
    assert list(errors) == ["as_drawn"]
    assert "is not a size with limits" in errors["as_drawn"][0]
    assert 'value="2 1/2 in or so"' in answer.content.decode()


def test_limits_are_refused_in_words_and_what_was_typed_stays(as_curator, class_e, bore):
    typed = {"characteristic": bore.pk, "lower_mm": "5 x 9", "upper_mm": "14"}

    answer = as_curator.post(reverse("specification-add", args=[class_e.pk]), typed)

    errors = answer.context["form"].errors
    assert "more than one length" in errors["lower_mm"][0]
    assert "has no unit" in errors["upper_mm"][0]
    assert 'value="5 x 9"' in answer.content.decode()


@pytest.mark.parametrize(
    ("limits", "beside", "words"),
    [
        (
            {"lower_mm": "3 in", "upper_mm": "2 in"},
            "upper_mm",
            "The upper limit is below the lower limit: 50.8 mm against 76.2 mm.",
        ),
        (
            {"upper_mm": "95 mm", "worn_lower_mm": "99 mm"},
            "worn_lower_mm",
            "The lower limit when worn is above the upper limit: 99 mm against 95 mm.",
        ),
        (
            {"lower_mm": "95 mm", "worn_upper_mm": "90 mm"},
            "worn_upper_mm",
            "The upper limit when worn is below the lower limit: 90 mm against 95 mm.",
        ),
        (
            {"worn_lower_mm": "95 mm", "worn_upper_mm": "90 mm"},
            "worn_upper_mm",
            "The upper limit when worn is below the lower one: 90 mm against 95 mm.",
        ),
        (
            {"lower_mm": "90 mm", "worn_lower_mm": "95 mm"},
            "worn_lower_mm",
            "The lower limit when worn is tighter than the limit as new: 95 mm against 90 mm.",
        ),
    ],
)
def test_crossed_limits_are_refused_beside_the_field(
    as_curator, class_e, bore, limits, beside, words
):
    where = reverse("specification-add", args=[class_e.pk])

    page = as_curator.post(where, {"characteristic": bore.pk, **limits})

    assert page.context["form"].errors == {beside: [words]}
    assert all(f'value="{typed}"' in page.content.decode() for typed in limits.values())
    assert not Specification.objects.exists()


def test_limits_of_wear_may_stand_alone(as_curator, class_e, bore):
    typed = {"characteristic": bore.pk, "worn_lower_mm": "90 mm"}

    as_curator.post(reverse("specification-add", args=[class_e.pk]), typed)

    row = Specification.objects.get()
    assert (row.ends, str(row)) == ((Decimal(90), None), "bore 90– mm")


def test_drawing_and_limits_that_disagree_are_refused(as_curator, class_e, bore):
    typed = {"characteristic": bore.pk, "as_drawn": "63 mm ± 1", "upper_mm": "70 mm"}
    where = reverse("specification-add", args=[class_e.pk])

    page = as_curator.post(where, typed)
    as_curator.post(where, {**typed, "upper_mm": "64 mm"})

    told = page.context["form"].errors["as_drawn"]
    assert told == ["The limits below say otherwise: clear one of them."]
    assert Specification.objects.get().ends == (Decimal(62), Decimal(64))


def test_limits_are_changed_and_removed(as_curator, class_e, bore):
    row = SpecificationFactory(vehicle_class=class_e, characteristic=bore)
    typed = {"characteristic": bore.pk, "upper_mm": "65 mm", "position": class_e.positions.get().pk}

    as_curator.post(reverse("specification-change", args=[row.pk]), typed)
    row.refresh_from_db()
    assert (row.lower_mm, row.upper_mm, row.position.code) == (None, Decimal(65), "L1")

    as_curator.post(reverse("specification-remove", args=[row.pk]))
    assert not Specification.objects.exists()


def test_saved_limits_say_so_and_keep_the_sources_behind_them(as_curator, class_e, bore):
    row = SpecificationFactory(vehicle_class=class_e, characteristic=bore)
    citation = CitationFactory(event=None, specification=row, source__title="Shop book")
    where = reverse("specification-change", args=[row.pk])

    form = as_curator.get(where).content.decode()
    page = as_curator.post(where, {"characteristic": bore.pk, "upper_mm": "65 mm"}, follow=True)

    assert "Behind it already: Shop book. A source chosen here is added to it." in form
    told = "Limits for bore saved. The former version is in the history."
    assert told in page.content.decode()
    assert reverse("citation-remove", args=[citation.pk]) in page.content.decode()


def test_source_of_limits_taken_over_is_taken_off_where_they_stand_only(as_curator, class_b):
    row = class_b.based_on.specifications.get()
    citation = CitationFactory(event=None, specification=row, source__title="Shop book")

    page = as_curator.get(class_b.get_absolute_url()).content.decode()

    assert "Shop book" in page
    assert reverse("citation-remove", args=[citation.pk]) not in page


def test_form_offers_what_the_class_has_only(as_curator, class_e, bore):
    CharacteristicFactory(name="flange")

    form = as_curator.get(reverse("specification-add", args=[class_e.pk])).context["form"]

    assert list(form.fields["characteristic"].queryset) == [bore]


def test_form_offers_what_one_vehicle_has_besides_too(as_curator, class_e):
    pipe = CharacteristicFactory(name="length")
    own = PositionFactory(
        code="S3",
        component=pipe.component,
        vehicle_class=None,
        vehicle=VehicleFactory(label="Kestrel", vehicle_class=class_e),
    )
    where = reverse("specification-add", args=[class_e.pk])
    typed = {"characteristic": pipe.pk, "position": own.pk, "lower_mm": "65 mm"}

    page = as_curator.get(where).content.decode()
    refused = as_curator.post(where, typed).context["form"]
    as_curator.post(where, {**typed, "vehicle": own.vehicle_id})

    assert f"{own}, on Kestrel only</option>" in page
    assert refused.errors == {"position": [f"{own} is on Kestrel only."]}
    assert Specification.objects.get().position == own


@pytest.fixture
def class_b(class_e, bore):
    limits = {"lower_mm": 63, "upper_mm": 65, "worn_upper_mm": 68}
    SpecificationFactory(vehicle_class=class_e, characteristic=bore, **limits)
    return VehicleClassFactory(designation="Class B", based_on=class_e)


def test_class_that_differs_begins_with_the_limits_of_its_base(as_curator, class_b, bore):
    sheet = as_curator.get(class_b.get_absolute_url()).content.decode()
    where = reverse("specification-add", args=[class_b.pk])
    assert f"{where}?characteristic={bore.pk}" in sheet

    page = as_curator.get(where, {"characteristic": bore.pk})

    form = page.context["form"]
    assert [form[name].value() for name in ("lower_mm", "upper_mm", "worn_upper_mm")] == [
        "63 mm",
        "65 mm",
        "68 mm",
    ]


def test_class_that_differs_says_which_limits_it_stands_in_the_place_of(as_curator, class_b, bore):
    where = reverse("specification-add", args=[class_b.pk])
    typed = {"characteristic": bore.pk, "lower_mm": "63 mm", "worn_upper_mm": "66 mm"}

    page = as_curator.post(where, typed, follow=True)

    words = f"They stand in the place of all that {class_b.based_on} says: bore 63–65 mm."
    assert words in page.content.decode()
    assert class_b.based_on.specifications.count() == 1


@pytest.mark.parametrize("nonsense", ["", "bore", "999999", "9" * 20])
def test_form_for_limits_opens_whatever_the_address_asks_for(as_curator, class_b, nonsense):
    where = reverse("specification-add", args=[class_b.pk])

    asked = dict.fromkeys(("characteristic", "vehicle", "position"), nonsense)

    assert as_curator.get(where, asked).context["form"]["lower_mm"].value() is None
