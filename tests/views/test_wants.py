"""Wants and answers to them on the screens of members."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from catalog.models import Answer, Drawing, Party, PositionSpot, Source, Want
from tests.factories import (
    LONG_AGO,
    AnswerFactory,
    PartFactory,
    PartyFactory,
    PhotoFactory,
    PositionFactory,
    VehicleFactory,
    WantFactory,
)
from tests.printing.reading import text_of
from tests.tramway import lay_out_class

pytestmark = pytest.mark.django_db


def page(client, name, *args):
    answer = client.get(reverse(name, args=args))
    assert answer.status_code == 200
    return answer.content.decode()


def test_list_shows_standing_and_answers(signed_in):
    AnswerFactory(want=WantFactory(title="Drawhead", is_published=True, published_at=LONG_AGO))
    WantFactory(title="Hinge")
    WantFactory(title="Brass", closed_at=LONG_AGO)

    words = page(signed_in, "want-list")

    assert "1 not acknowledged" in words
    assert words.index("Drawhead") < words.index("Hinge") < words.index("Brass")
    assert "for members only" in words


def test_empty_list_says_what_to_do(signed_in):
    assert "Nothing is asked for yet." in page(signed_in, "want-list")


def test_want_comes_from_a_position_in_two_taps(signed_in):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14")
    place = shop.position("drawhead", "A")
    shop.limits("drawhead", "shank", lower_mm="63.5", upper_mm="64.5")
    form = signed_in.get(reverse("want-add"), {"vehicle": "wagon-14", "position": place.pk})

    typed = {
        field.html_name: field.value() or ""
        for field in form.context["form"]
        if field.value() not in (None, False)
    }
    answer = signed_in.post(reverse("want-add"), {k: getattr(v, "pk", v) for k, v in typed.items()})

    want = Want.objects.get()
    assert answer.url == want.get_absolute_url()
    assert (want.title, want.vehicle, want.position) == ("Drawhead for Wagon 14", wagon, place)
    assert want.dimensions == "shank: 64.0 ± 0.5 mm (≈ 2.520 in)"
    assert want.helps == [
        "the piece itself",
        "a photograph",
        "a drawing",
        "a look at a surviving example",
    ]


def test_want_of_several_positions_asks_for_all_of_them(signed_in):
    shop = lay_out_class()
    shop.vehicle("Wagon 14")
    places = [shop.position("drawhead", code).pk for code in ("A", "B")]

    form = signed_in.get(reverse("want-add"), {"vehicle": "wagon-14", "position": places})

    told = form.context["form"].initial
    assert (told["quantity"], told["position"].pk) == (2, places[0])
    assert "lack 2 of these pieces at A and B" in told["words"]


def test_want_of_a_position_that_the_vehicle_lacks_is_not_found(signed_in):
    lay_out_class().vehicle("Wagon 14")
    elsewhere = PositionFactory().pk

    for asked in (elsewhere, "x", "9" * 40):
        where = {"vehicle": "wagon-14", "position": asked}
        assert signed_in.get(reverse("want-add"), where).status_code == 404


def test_want_of_no_position_begins_empty(signed_in):
    form = signed_in.get(reverse("want-add")).context["form"]

    assert form.initial == {}


@pytest.mark.parametrize("asked", [{"vehicle": "none", "position": "1"}])
def test_want_of_what_is_not_there_is_not_found(signed_in, asked):
    assert signed_in.get(reverse("want-add"), asked).status_code == 404


def test_want_without_a_component_keeps_what_was_typed(signed_in):
    answer = signed_in.post(reverse("want-add"), {"title": "Some piece", "quantity": "1"})

    assert "Some piece" in answer.content.decode()
    assert "component" in answer.context["form"].errors


def test_change_is_refused_when_the_want_has_moved_on(signed_in, member):
    want = WantFactory(title="Drawhead")
    address = reverse("want-change", args=[want.slug])
    form = signed_in.get(address).context["form"]
    want.quantity = 3
    want.save()

    sent = {"title": "Hook", "component": want.component.pk, "quantity": 1}
    answer = signed_in.post(address, {**sent, "seen": form["seen"].value()})

    assert "changed this while you were typing" in answer.content.decode()
    want.refresh_from_db()
    assert want.title == "Drawhead"


def test_picture_is_chosen_among_those_of_the_piece_and_the_vehicle(signed_in):
    want = WantFactory(vehicle=VehicleFactory())
    of_kind = PhotoFactory(part=None, component=want.component, is_published=True)
    of_piece = PhotoFactory(part=PartFactory(component=want.component))
    of_wagon = PhotoFactory(part=None, vehicle=want.vehicle)
    other = PhotoFactory()
    address = reverse("want-change", args=[want.slug])

    form = signed_in.get(address).context["form"]
    assert list(form.fields["picture"].queryset) == [of_kind, of_piece, of_wagon]
    assert "not shown to visitors yet" in str(form["picture"])

    typed = {"title": "Hook", "component": want.component.pk, "quantity": 1, "helps_piece": "on"}
    sent = {**typed, "seen": form["seen"].value() or ""}
    refused = signed_in.post(address, {**sent, "picture": other.pk})
    signed_in.post(address, {**sent, "picture": of_wagon.pk})

    want.refresh_from_db()
    assert ("picture" in refused.context["form"].errors, want.picture) == (True, of_wagon)


def test_curator_publishes_hides_closes_and_opens(as_curator):
    want = WantFactory()

    def press(name, **sent):
        as_curator.post(reverse(name, args=[want.slug]), sent)
        want.refresh_from_db()
        return want.is_published, want.is_open, want.closing_words

    assert press("want-publish") == (True, True, "")
    assert press("want-hide") == (False, True, "")
    assert press("want-close", words="one came") == (False, False, "one came")
    assert press("want-publish") == (False, False, "one came")
    assert press("want-reopen") == (False, True, "")


@pytest.mark.parametrize("name", ["want-publish", "want-hide", "want-close", "want-reopen"])
def test_volunteer_may_not_publish_or_close(signed_in, name):
    want = WantFactory()

    assert signed_in.post(reverse(name, args=[want.slug])).status_code == 403


def test_page_tells_what_visitors_do_not_see(signed_in):
    want = WantFactory(picture=PhotoFactory())

    assert "Visitors do not see this picture" in page(signed_in, "want-detail", want.slug)


def test_page_leads_to_where_the_drawing_is_shown_to_visitors(as_curator):
    shop = lay_out_class()
    place, kind = shop.position("drawhead", "A"), shop.vehicle_class
    picture = PhotoFactory(part=None, vehicle_class=kind)
    drawing = Drawing.objects.create(vehicle_class=kind, title="Side", picture=picture)
    PositionSpot.objects.create(position=place, drawing=drawing, x=0.5, y=0.5)
    want = WantFactory(vehicle=shop.vehicle("Wagon 14"), position=place, drawing=drawing)

    words = page(as_curator, "want-detail", want.slug)

    for address in (picture.get_absolute_url(), kind.get_absolute_url()):
        assert f'href="{address}"' in words
    assert words.count("which visitors do not see yet") == 2


@pytest.mark.parametrize(
    ("is_shown", "words", "is_warned"),
    [(False, "For wagon 31.", True), (False, "For us.", False), (True, "For Wagon 31.", False)],
)
def test_curator_is_warned_of_a_vehicle_that_visitors_are_not_to_hear_of(
    as_curator, is_shown, words, is_warned
):
    wagon = VehicleFactory(label="Wagon 31", is_published=is_shown)
    want = WantFactory(title="Spring", vehicle=wagon, words=words, is_published=True)

    told = page(as_curator, "want-detail", want.slug)

    assert ("is not shown to visitors, but this want names it" in told) is is_warned


@pytest.mark.parametrize(
    ("is_published", "leads_to"), [(True, "/wanted/drawhead/"), (False, "/wanted/,")]
)
def test_sheet_leads_to_the_public_page_once_there_is_one(signed_in, is_published, leads_to):
    want = WantFactory(
        title="Drawhead", slug="drawhead", dimensions="shank: 64 mm", is_published=is_published
    )

    pdf = signed_in.get(reverse("want-print", args=[want.slug])).content

    words = text_of(PdfReader(BytesIO(pdf)))

    assert f"http://testserver{leads_to}" in words
    assert "shank: 64 mm" in words


def test_visitor_sees_no_page_of_members(as_visitor):
    want = WantFactory(is_published=True)

    for name in ("want-detail", "want-change", "want-print"):
        assert as_visitor.get(reverse(name, args=[want.slug])).status_code == 403
    assert as_visitor.get(reverse("want-list")).status_code == 403
    assert as_visitor.get(reverse("want-add"), {"vehicle": "x", "position": "1"}).status_code == 403


def test_answers_are_for_stewards_only(as_curator):
    answer = AnswerFactory()

    assert as_curator.get(reverse("answer-list")).status_code == 403
    assert as_curator.get(reverse("answer-detail", args=[answer.pk])).status_code == 403
    made = ("answer-source", "answer-accession", "answer-party")
    for name in ("answer-acknowledge", "answer-remove", *made):
        assert as_curator.post(reverse(name, args=[answer.pk])).status_code == 403


def test_steward_reads_answers_with_contact(as_steward):
    answer = AnswerFactory(contact="ada@skarn.example")

    assert "1 not acknowledged yet" in page(as_steward, "answer-list")
    words = page(as_steward, "answer-detail", answer.pk)
    assert "ada@skarn.example" in words
    assert "is read by all members of the group, and by nobody outside" in words


def test_steward_makes_records_of_an_answer(as_steward):
    answer = AnswerFactory(name="Ada Skarn")

    def press(name, **sent):
        return as_steward.post(reverse(name, args=[answer.pk]), sent, follow=True)

    press("answer-party")
    press("answer-source", kind="photograph", title="The mill")
    again = press("answer-source", kind="photograph", title="The mill")
    press("answer-accession")
    press("answer-acknowledge", came_of_it="it is here")

    kept = Answer.objects.get()
    assert (kept.party, kept.source) == (Party.objects.get(), Source.objects.get(title="The mill"))
    assert "It is a source already" in again.content.decode()
    assert (kept.accession.party, kept.came_of_it) == (kept.party, "it is here")
    assert "it is here" in page(as_steward, "answer-list")


def test_steward_removes_an_answer_and_is_told_what_was_made_of_it(as_steward):
    answer = AnswerFactory(name="Ada Skarn", party=PartyFactory(name="Ada the smith"))
    address = reverse("answer-remove", args=[answer.pk])

    assert "Ada the smith" in page(as_steward, "answer-remove", answer.pk)
    assert "This field is required" in as_steward.post(address).content.decode()
    removed = as_steward.post(address, {"why": "asked"}, follow=True).content.decode()

    assert "the writer asked for it" in removed
    assert ("Ada Skarn" in removed, "Ada the smith" in removed) == (False, True)
    rows = page(as_steward, "answer-list")
    assert ("Ada Skarn" in rows, "Removed lately" in rows) == (False, True)
    assert as_steward.post(address, {"why": "asked"}).status_code == 404


def test_empty_list_of_answers_says_what_to_do(as_steward):
    assert "No answer has come yet." in page(as_steward, "answer-list")


@pytest.mark.parametrize("name", ["want-list", "answer-list"])
def test_lists_take_the_same_queries_for_one_and_three(as_steward, count_queries, name):
    AnswerFactory()
    one = count_queries(as_steward, reverse(name))
    AnswerFactory()
    AnswerFactory()

    assert count_queries(as_steward, reverse(name)) == one
