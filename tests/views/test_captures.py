"""Taking in by phone: little is asked, nothing twice, and what was typed or taken stays."""

import re
from decimal import Decimal

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalog.models import Measurement, Part, Photo
from catalog.operations.captures import take_in
from tests.factories import (
    AccessionFactory,
    ComponentAliasFactory,
    InstrumentFactory,
    LocationFactory,
    PartFactory,
)
from tests.samples import picture

pytestmark = pytest.mark.django_db
TAKE_IN = "/take-in/"
TAG = "K7Q-2M9V"


def page_of(answer):
    return answer.content.decode()


def errors(answer):
    return {name: list(words) for name, words in answer.context["form"].errors.items()}


def held_in(answer):
    return re.findall(r'name="held" value="([^"]+)"', page_of(answer))


def test_take_in_takes_one_photo_and_nothing_else(signed_in, member):
    answer = signed_in.post(TAKE_IN, {"photos": [picture()]})

    part = Part.objects.get()
    assert answer.headers["Location"] == f"{TAKE_IN}?saved={part.pk}"
    assert (part.recorded_by, part.photos.count()) == (member, 1)


def test_take_in_takes_one_line_of_words_and_nothing_else(signed_in):
    signed_in.post(TAKE_IN, {"description": "bent strap"})

    part = Part.objects.get()
    assert (part.quantity, part.usability, part.surviving_share) == (1, "unassessed", 1)


def test_take_in_of_nothing_says_what_is_needed(signed_in):
    answer = signed_in.post(TAKE_IN, {"quantity": "2"})

    assert errors(answer) == {"__all__": ["Take one photo, or write one line of words."]}
    assert not Part.objects.exists()


def test_take_in_takes_all_that_is_known(signed_in):
    alias = ComponentAliasFactory(name="axlebox", component__name="journal box")
    form = {
        "tag": "k7q2m9v",
        "quantity": "3",
        "component": alias.component_id,
        "mark": "M.F.T. 2?7",
        "measurement": "",
        "usability": "repair",
        "surviving_share": "0.5",
    }

    signed_in.post(TAKE_IN, form)

    part = Part.objects.get()
    assert (part.tag, part.quantity, part.component) == (TAG, 3, alias.component)
    assert (part.usability, part.surviving_share) == ("repair", Decimal("0.5"))
    assert part.marks.get().text == "M.F.T. 2?7"
    assert 'data-aliases="axlebox"' in page_of(signed_in.get(TAKE_IN))


def test_take_in_keeps_a_measurement_as_typed(signed_in):
    rule = InstrumentFactory()
    form = {"description": "box", "measured_at": "bore", "measurement": "2 1/2 in"}

    signed_in.post(TAKE_IN, {**form, "instrument": rule.pk})

    measurement = Measurement.objects.get()
    assert (measurement.name, measurement.text) == ("bore", "2 1/2 in")
    assert (measurement.value_mm, measurement.instrument) == (Decimal("63.5"), rule)


@pytest.mark.parametrize(
    ("typed", "words"),
    [("3 5/4 in", "5/4"), ("5 x 9", "5 x 9"), ("14", "14")],
)
def test_take_in_with_a_length_that_cannot_be_read_keeps_what_was_typed(signed_in, typed, words):
    form = {"description": "box", "measured_at": "bore", "measurement": typed}

    answer = signed_in.post(TAKE_IN, form)

    assert list(errors(answer)) == ["measurement"]
    assert words in errors(answer)["measurement"][0]
    assert [f'value="{value}"' in page_of(answer) for value in ("box", "bore", typed)] == [True] * 3
    assert not Part.objects.exists()


@pytest.mark.parametrize(
    ("form", "problem"),
    [
        ({"measured_at": "bore"}, "Write what you read there, or leave both empty."),
        ({"measurement": "14 mm"}, "Say what was measured."),
    ],
)
def test_take_in_with_half_a_measurement_asks_for_the_other(signed_in, form, problem):
    answer = signed_in.post(TAKE_IN, {"description": "box", **form})

    assert errors(answer) == {"measurement": [problem]}


@pytest.mark.parametrize(
    ("quantity", "problem"),
    [
        ("0", "A part is at least one piece."),
        ("3.5", "Count whole pieces: half a piece is one piece of which half survives."),
    ],
)
def test_take_in_of_no_whole_quantity_says_why(signed_in, quantity, problem):
    answer = signed_in.post(TAKE_IN, {"description": "bent strap", "quantity": quantity})

    assert errors(answer) == {"quantity": [problem]}
    assert 'value="bent strap"' in page_of(answer)
    assert not Part.objects.exists()


def test_take_in_under_a_tag_in_use_says_which_part_has_it(signed_in):
    PartFactory(number="2026.4.18", description="journal box", tag=TAG)

    answer = signed_in.post(TAKE_IN, {"description": "strap", "tag": TAG})

    assert errors(answer) == {
        "tag": ["Tag K7Q-2M9V is tied to 2026.4.18, journal box. Take another tag."]
    }
    assert Part.objects.count() == 1


def test_take_in_with_a_file_that_is_no_image_keeps_the_words(signed_in):
    sheet = SimpleUploadedFile("bolt.jpg", b"GIF89a then something else")

    answer = signed_in.post(TAKE_IN, {"description": "bolt with nut", "photos": [sheet]})

    problem = errors(answer)["photos"][0]
    assert problem.startswith("bolt.jpg: This GIF file breaks off early or is damaged")
    assert 'value="bolt with nut"' in page_of(answer)
    assert not Part.objects.exists()


def test_take_in_that_comes_back_holds_its_photos_for_the_next_try(signed_in):
    answer = signed_in.post(TAKE_IN, {"photos": [picture(name="a.jpg")], "tag": "K7O-2M9V"})
    assert errors(answer) == {
        "tag": ["“O” is never printed on a tag; look at the tag again."],
    }

    signed_in.post(TAKE_IN, {"held": held_in(answer), "tag": TAG})

    assert Photo.objects.get().original_name == "a.jpg"
    assert Part.objects.get().tag == TAG


def test_take_in_holds_the_good_photo_beside_a_bad_one(signed_in):
    sheet = SimpleUploadedFile("bolt.pdf", b"%PDF-1.7")

    answer = signed_in.post(TAKE_IN, {"photos": [picture(), sheet]})

    assert len(held_in(answer)) == 1
    assert 'src="data:image/webp;base64,' in page_of(answer)


@pytest.mark.parametrize("token", ["forged", ""])
def test_take_in_with_a_forged_photo_is_refused(signed_in, token):
    answer = signed_in.post(TAKE_IN, {"held": [token], "description": "strap"})

    assert errors(answer) == {"held": ["A photo that was kept for you is gone. Take it again."]}


def test_take_in_keeps_donation_and_location_for_the_next_piece(signed_in):
    accession, shelf = AccessionFactory(year=2026, serial=4), LocationFactory()
    form = {"description": "strap", "accession": accession.pk, "location": shelf.pk}

    page = signed_in.post(TAKE_IN, form, follow=True)

    part = Part.objects.get()
    assert (part.number, part.location) == ("2026.4.1", shelf)
    initial = page.context["form"].initial
    assert (initial["accession"], initial["location"]) == (accession.pk, shelf.pk)
    assert [words in page_of(page) for words in ("2026.4.1", "Next piece")] == [True, True]


def test_take_in_offers_open_donations_only(signed_in):
    open_one = AccessionFactory()
    AccessionFactory(is_open=False)

    form = signed_in.get(TAKE_IN).context["form"]

    assert list(form.fields["accession"].queryset) == [open_one]


def test_take_in_tells_of_the_same_photo_elsewhere(signed_in, member):
    take_in(by=member, description="strap", tag=TAG, photos=[picture()])

    page = signed_in.post(TAKE_IN, {"photos": [picture()]}, follow=True)

    assert [str(holder) for _, holder in page.context["saved"]["elsewhere"]] == [f"tag {TAG}"]


def test_capture_can_be_undone_by_who_made_it(signed_in, member):
    part = take_in(by=member, description="strap", accession=AccessionFactory(year=2026, serial=4))

    page = signed_in.post(reverse("capture-undo", args=[part.pk]), follow=True)

    assert not Part.objects.kept().exists()
    assert "2026.4.1 is withdrawn. Its number is not given again." in page_of(page)


def test_capture_of_another_member_is_not_undone(signed_in, curator):
    part = take_in(by=curator, description="strap")

    page = signed_in.post(reverse("capture-undo", args=[part.pk]), follow=True)

    assert Part.objects.kept().get() == part
    assert "Only who took a piece in can undo it" in page_of(page)


def test_take_in_page_takes_the_same_queries_for_one_and_three(signed_in, count_queries):
    def enrich():
        AccessionFactory()
        LocationFactory()
        ComponentAliasFactory()

    enrich()
    one = count_queries(signed_in, TAKE_IN)
    enrich()
    enrich()

    assert count_queries(signed_in, TAKE_IN) == one


def test_take_in_is_for_volunteers(as_visitor):
    assert as_visitor.get(TAKE_IN).status_code == 403


def test_take_in_shows_what_is_kept_from_the_last_piece(signed_in):
    accession, shelf = AccessionFactory(year=2026, serial=4), LocationFactory(name="Rack 2")
    form = {"description": "strap", "accession": accession.pk, "location": shelf.pk}

    page = page_of(signed_in.post(TAKE_IN, form, follow=True))

    assert ">From the last piece: 2026.4, Rack 2</summary>" in page
