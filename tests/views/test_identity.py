"""Test what a part may be on its record: brought in later, so that the record does not wait."""

from django.urls import reverse

from catalog.models import Part
from tests.factories import ComponentFactory, PartFactory


def test_record_says_where_to_ask_what_an_unidentified_part_may_be(signed_in):
    part = PartFactory()

    page = signed_in.get(part.get_absolute_url()).content.decode()

    assert f'data-later="{reverse("part-identity-brief", args=[part.pk])}"' in page


def test_record_of_an_agreed_part_asks_no_more(signed_in):
    standing = Part.Standing.AGREED
    part = PartFactory(component=ComponentFactory(), identification_status=standing)

    page = signed_in.get(part.get_absolute_url()).content.decode()

    assert "data-later" not in page


def test_brief_identity_is_a_piece_of_a_page(signed_in):
    part = PartFactory()

    answer = signed_in.get(reverse("part-identity-brief", args=[part.pk])).content.decode()

    assert answer == (
        "<p><strong>Nothing is recorded yet that tells one component from another.</strong></p>\n\n"
    )


def test_brief_identity_is_for_members(as_visitor):
    address = reverse("part-identity-brief", args=[PartFactory().pk])

    assert as_visitor.get(address).status_code == 403
