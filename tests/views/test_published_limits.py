"""A class takes over a published limit, with its section cited behind it."""

from decimal import Decimal

import pytest
from django.urls import reverse

from catalog.models import MatingRule, Source, Specification
from catalog.models.sources import Citation
from catalog.reckoning.published_limits import REFERENCE_ONLY
from tests.corner import lay_out_corner
from tests.factories import CharacteristicFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    corner = lay_out_corner()
    for name in ("back to back", "wheel diameter left", "wheel diameter right"):
        corner.characteristics[name] = CharacteristicFactory(
            component=corner.components["wheelset"], name=name
        )
    return corner


def adopt(client, corner, code, **sent):
    where = reverse("published-limit-adopt", args=[corner.vehicle_class.pk, code])
    keys = {name: getattr(value, "pk", value) for name, value in sent.items()}
    return client.post(where, keys)


def test_list_names_sections_and_certainty_and_calls_nothing_safe(as_curator, corner):
    where = reverse("published-limits", args=[corner.vehicle_class.pk])

    page = as_curator.get(where).content.decode()

    assert "49 CFR 230.112(b)" in page
    assert "seen in the published text" in page
    assert REFERENCE_ONLY in page


def test_limit_from_the_gauge_is_taken_over_and_cited(as_curator, corner):
    corner.vehicle_class.gauge_mm = Decimal(762)
    corner.vehicle_class.save()
    apart = corner.characteristics["back to back"]

    answer = adopt(as_curator, corner, "inside-gauge", characteristic=apart)

    row = Specification.objects.get(characteristic=apart)
    assert answer.url == corner.vehicle_class.get_absolute_url()
    assert (row.lower_mm, row.upper_mm) == (Decimal("673.1"), Decimal("682.625"))
    assert row.note == REFERENCE_ONLY
    cited = Citation.objects.get(specification=row)
    assert (cited.source.kind, cited.locator) == ("regulation", "49 CFR 230.112(b)")


def test_wear_is_taken_over_from_the_original_size(as_curator, corner):
    journal = corner.characteristics["back to back"]

    sizes = {"original_mm": "2 1/2 in", "tolerance_mm": "0.5 mm"}
    adopt(as_curator, corner, "axle-wear", characteristic=journal, **sizes)

    row = Specification.objects.get(characteristic=journal)
    assert (row.lower_mm, row.upper_mm) == (63, 64)
    assert row.worn_lower_mm == Decimal("50.8")
    assert row.note == f"{REFERENCE_ONLY} The ± 0.5 mm as new is the group's own."


def test_size_of_a_table_is_taken_over_with_the_groups_own_tolerance_and_wear(as_curator, corner):
    journal = corner.characteristics["back to back"]

    own = {"tolerance_mm": "1 mm", "wear_mm": "1/2 in"}
    adopt(as_curator, corner, "journal-c", characteristic=journal, **own)

    row = Specification.objects.get(characteristic=journal)
    assert (row.lower_mm, row.upper_mm, row.worn_lower_mm) == (126, 128, Decimal("114.3"))
    assert row.note.endswith("The ± 1 mm as new and the wear of 12.7 mm are the group's own.")
    assert row.citations.get().locator == "RP-633, size C"


def test_limits_in_service_are_taken_over_as_limits_of_wear(as_curator, corner):
    flange = corner.characteristics["back to back"]

    adopt(as_curator, corner, "flange-height", characteristic=flange)

    row = Specification.objects.get(characteristic=flange)
    assert (row.lower_mm, row.upper_mm) == (None, None)
    assert (row.worn_lower_mm, row.worn_upper_mm) == (Decimal("25.4"), Decimal("38.1"))


def test_difference_becomes_a_rule_between_two_sizes_of_one_piece(as_curator, corner):
    left = corner.characteristics["wheel diameter left"]
    right = corner.characteristics["wheel diameter right"]

    adopt(as_curator, corner, "wheel-diameters", characteristic=left, other=right)

    rule = MatingRule.objects.get(outer=left)
    assert (rule.inner, rule.least_mm, rule.greatest_mm) == (
        right,
        Decimal("-2.38125"),
        Decimal("2.38125"),
    )


def test_document_is_recorded_as_a_source_once(as_curator, corner):
    for code, name in (("flange-height", "back to back"), ("rim-thickness", "axle hole")):
        adopt(as_curator, corner, code, characteristic=corner.characteristics[name])

    assert Source.objects.count() == 1


@pytest.mark.parametrize(
    ("code", "extra", "words"),
    [
        ("inside-gauge", {}, "measured from the gauge: give that first"),
        ("axle-wear", {}, "measured from the original size: give that first"),
        ("journal-a", {}, "gives a size and no tolerance"),
        (
            "journal-a",
            {"tolerance_mm": "1 mm", "wear_mm": "0.5 mm"},
            "Wear of 0.5 mm lies within the ± 1 mm",
        ),
        ("wheel-diameters", {}, "choose the other one"),
    ],
)
def test_what_is_still_needed_is_said_in_words(as_curator, corner, code, extra, words):
    apart = corner.characteristics["back to back"]

    answer = adopt(as_curator, corner, code, characteristic=apart, **extra)

    page = answer.content.decode()
    assert words in page
    assert all(f'value="{typed}"' in page for typed in extra.values())
    assert not Specification.objects.filter(characteristic=apart).exists()


def test_limits_that_are_there_already_are_refused(as_curator, corner):
    answer = adopt(
        as_curator, corner, "rim-thickness", characteristic=corner.characteristics["bore"]
    )

    assert "already limits for this characteristic" in answer.content.decode()


def test_only_a_curator_takes_limits_over(signed_in, corner):
    assert adopt(signed_in, corner, "rim-thickness").status_code == 403


def test_unknown_limit_is_not_found(as_curator, corner):
    assert adopt(as_curator, corner, "nothing").status_code == 404
