"""Moving parts on the screen."""

import re

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from catalog.models import Move
from catalog.operations.moves import move_part
from catalog.queries.places import moves_of
from tests.factories import LocationFactory, PartFactory

pytestmark = pytest.mark.django_db

TAG = "K7Q-2M9V"


@pytest.fixture
def shelf():
    return LocationFactory(name="Back shelf", tag=TAG)


def test_part_is_moved_by_scanning_the_shelf(signed_in, shelf):
    part = PartFactory()

    answer = signed_in.post(
        reverse("part-move", args=[part.pk]), {"scanned": f"https://shed.example/t/{TAG}/"}
    )

    assert answer.headers["Location"] == part.get_absolute_url()
    part.refresh_from_db()
    assert part.location == shelf


def test_part_moved_into_itself_is_refused_in_words(signed_in):
    part = PartFactory(number="2026.1.1")

    page = signed_in.post(reverse("part-move", args=[part.pk]), {"inside": "2026.1.1"})

    assert "2026.1.1 cannot be put inside itself." in page.content.decode()


def test_unknown_shelf_is_refused_in_words(signed_in, shelf):
    page = signed_in.post(reverse("part-move", args=[PartFactory().pk]), {"scanned": "Shelf 9"})

    assert "No location goes by “Shelf 9”" in page.content.decode()
    assert not Move.objects.exists()


def test_many_parts_move_in_one_go_and_can_be_undone(signed_in, shelf):
    parts = [PartFactory(number=f"2026.1.{number}") for number in (1, 2)]
    typed = {"location": shelf.pk, "pieces": "2026.1.1\n2026.1.2\n"}

    page = signed_in.post(reverse("move"), typed, follow=True).content.decode()
    assert "2 parts are at Back shelf now." in page

    keys = re.findall(r'name="move" value="(\d+)"', page)
    signed_in.post(reverse("move-undo"), {"move": keys})
    for part in parts:
        part.refresh_from_db()
    assert [part.location for part in parts] == [None, None]


def test_unknown_pieces_stay_in_the_field_and_the_others_move(signed_in, shelf):
    part = PartFactory(number="2026.1.1")
    typed = {"scanned": TAG, "pieces": "2026.1.1\nthe red one\n"}

    answer = signed_in.post(reverse("move"), typed)

    page = answer.content.decode()
    assert "2026.1.1 is at Back shelf now." in page
    assert "This line names no part that is in the catalog" in page
    assert answer.context["form"]["pieces"].value() == "the red one"
    part.refresh_from_db()
    assert part.location == shelf


def test_sending_the_same_again_moves_nothing(signed_in, shelf):
    PartFactory(number="2026.1.1", location=shelf)

    answer = signed_in.post(
        reverse("move"), {"location": shelf.pk, "pieces": "2026.1.1"}, follow=True
    )

    assert "Nothing was moved: all of it is there already." in answer.content.decode()
    assert not Move.objects.exists()


def test_only_unknown_pieces_move_nothing_and_say_no_more(signed_in, shelf):
    page = signed_in.post(reverse("move"), {"location": shelf.pk, "pieces": "x\ny"})

    assert "These 2 lines name no part" in page.content.decode()
    assert "Nothing was moved" not in page.content.decode()


def test_move_without_a_place_keeps_the_pieces(signed_in):
    PartFactory(number="2026.1.1")

    page = signed_in.post(reverse("move"), {"pieces": "2026.1.1"}).content.decode()

    assert "Say where it goes" in page
    assert "2026.1.1</textarea>" in page


def test_undo_after_another_move_is_refused_in_words(signed_in, member, shelf):
    part = PartFactory(number="2026.1.1")
    move = move_part(part, location=shelf, by=member)
    move_part(part, location=LocationFactory(), by=member)

    page = signed_in.post(reverse("move-undo"), {"move": [move.pk]}, follow=True)

    assert "2026.1.1 has been moved again since" in page.content.decode()


def test_visitor_moves_nothing(as_visitor, shelf):
    part = PartFactory()

    for address in (reverse("part-move", args=[part.pk]), reverse("move")):
        assert as_visitor.post(address, {"scanned": TAG, "pieces": "x"}).status_code == 403


def test_places_so_far_are_told_newest_first(member, shelf, django_assert_num_queries):
    bench = LocationFactory(name="Bench")
    part = PartFactory(location=bench)
    move_part(part, location=shelf, by=member, note="dried")
    crate = PartFactory(number="2026.1.9")
    move_part(part, inside=crate, by=member)

    with django_assert_num_queries(1):
        page = render_to_string("catalog/places/_moves.html", {"moves": moves_of(part)})

    assert page.index("To inside 2026.1.9, from Back shelf") < page.index(
        "To Back shelf, from Bench"
    )
    assert "dried" in page
