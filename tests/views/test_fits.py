"""What a part fits on the screen, the fit bench, and pictures side by side."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalog.models import Trial
from catalog.operations.searching import index_record
from tests.corner import lay_out_pieces
from tests.factories import PhotoFactory, VehicleFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def corner(db):
    return lay_out_pieces()


@pytest.fixture
def brass(corner):
    return corner.parts["worn brass"]


def bench(part, **against):
    which = "&".join(f"{name}={row.pk}" for name, row in against.items())
    return f"{reverse('fit-bench')}?part={part.pk}&{which}"


def test_sheet_of_fits_says_the_answer_first_and_the_reasons_after(signed_in, corner, brass):
    page = signed_in.get(reverse("part-fits", args=[brass.pk])).content.decode()

    wheelset = corner.parts["worn wheelset"]
    assert f"Wheelset {wheelset} fits as worn: bore over journal diameter is within" in page
    assert "3.900 ± 0.071 mm; allowed is 0 to 4.76 mm (0 to 3⁄16 in): <strong>fits</strong>" in page
    assert "Within the limits of wear, not those as new." in page
    assert "does not say that anything is safe to run" in page


def test_suggested_reading_of_a_mate_is_recorded_and_settles_the_answer(signed_in, corner, brass):
    wheelset = corner.parts["unmeasured wheelset"]
    journal = corner.characteristics["journal diameter"]
    where = f"{reverse('part-measure', args=[wheelset.pk])}?to_fit={brass.pk}"
    page = signed_in.get(reverse("part-fits", args=[brass.pk])).content.decode()
    assert f"Measure the journal diameter of {wheelset}: it decides" in page

    sent = {"measurement-characteristic": journal.pk, "measurement-length": "63.0 mm"}
    page = signed_in.post(where, sent, follow=True)

    assert page.redirect_chain[-1][0] == reverse("part-fits", args=[brass.pk])
    words = page.content.decode()
    assert f"Recorded for {wheelset}: journal diameter 63.000 ± 0.029 mm. Now: " in words
    assert f"Measure the journal diameter of {wheelset}" not in words


def test_refused_reading_keeps_what_was_typed_and_the_way_back(signed_in, corner, brass):
    wheelset = corner.parts["unmeasured wheelset"]
    journal = corner.characteristics["journal diameter"]
    where = f"{reverse('part-measure', args=[wheelset.pk])}?to_fit={brass.pk}&at={journal.pk}"
    assert f'value="{journal.pk}" selected' in signed_in.get(where).content.decode()

    sent = {"measurement-characteristic": journal.pk, "measurement-length": "63,0"}
    page = signed_in.post(where, sent).content.decode()

    assert "has a comma in the number" in page
    assert 'value="63,0"' in page
    assert reverse("part-fits", args=[brass.pk]) in page


def test_sheet_of_an_unidentified_part_says_what_it_is_held_to_be(signed_in, corner):
    part = corner.part("casting", None)
    corner.measure("casting", "bore", "64.1")

    page = signed_in.get(reverse("part-fits", args=[part.pk])).content.decode()

    assert "It is held here to be a <strong>class E bearing brass</strong>" in page


def test_sheet_of_an_unknown_part_leads_to_what_it_may_be(signed_in, corner):
    part = corner.part("casting", None)

    page = signed_in.get(reverse("part-fits", args=[part.pk])).content.decode()

    assert "Nobody has said yet what it is" in page
    assert reverse("part-identity", args=[part.pk]) in page


def test_queries_do_not_grow_with_mates(signed_in, corner, brass, count_queries):
    where = reverse("part-fits", args=[brass.pk])
    few = count_queries(signed_in, where)

    for number in range(3):
        corner.part(f"wheelset {number}", "wheelset")
        corner.measure(f"wheelset {number}", "journal diameter", "63.2")

    assert count_queries(signed_in, where) == few


def test_bench_lays_two_parts_side_by_side(signed_in, corner, brass):
    foreign = corner.parts["foreign wheelset"]

    page = signed_in.get(bench(brass, other=foreign)).content.decode()

    assert str(brass) in page
    assert "Does not fit: bore over journal diameter is −9.25 ± 0.47 mm" in page
    assert 'class="gauge outside"' in page


def test_trial_of_two_parts_is_recorded_and_outranks_arithmetic(signed_in, corner, brass, member):
    where = bench(brass, other=corner.parts["foreign wheelset"])

    sent = {"outcome": "work", "what_bound": "eased the flanges"}
    page = signed_in.post(where, sent, follow=True).content.decode()

    trial = Trial.objects.get()
    assert (trial.part, trial.other_part, trial.tried_by) == (
        brass,
        corner.parts["foreign wheelset"],
        member,
    )
    assert "Fits: it was tried and went with work: eased the flanges." in page
    assert reverse("photo-add", args=["trial", trial.pk]) in page


def test_photographs_of_a_trial_are_kept_with_it_and_a_bad_one_spoils_nothing(
    signed_in, corner, brass
):
    where = bench(brass, other=corner.parts["foreign wheelset"])
    bad = SimpleUploadedFile("notes.jpg", b"no picture", content_type="image/jpeg")

    sent = {"outcome": "went", "what_bound": "", "photos": [picture(), bad]}
    page = signed_in.post(where, sent, follow=True).content.decode()

    assert Trial.objects.get().photos.count() == 1
    assert "notes.jpg" in page


def test_trial_at_a_position_is_recorded_there(signed_in, corner, brass):
    position = corner.vehicle_class.positions.get(
        code="L1", component=corner.components["bearing brass"]
    )
    where = bench(brass, vehicle=corner.vehicle, position=position)
    assert "L1 of Wagon 31" in signed_in.get(where).content.decode()

    signed_in.post(where, {"outcome": "not", "what_bound": "the collar"})

    trial = Trial.objects.get()
    assert (trial.vehicle, trial.position, trial.outcome) == (corner.vehicle, position, "not")
    page = signed_in.get(where).content.decode()
    assert "Does not fit: it was tried and did not go: the collar." in page


def test_bench_without_a_rule_says_what_is_missing(signed_in, corner, brass):
    page = signed_in.get(bench(brass, other=corner.parts["box"])).content.decode()

    assert "No rule says yet how a bearing brass and a journal box go together." in page


def test_bench_of_another_component_names_both(signed_in, corner, brass):
    position = corner.vehicle_class.positions.get(code="A1")
    page = signed_in.get(bench(brass, vehicle=corner.vehicle, position=position)).content.decode()

    assert "is identified as bearing brass, and A1 takes a wheelset." in page


@pytest.mark.parametrize("query", ["part=x", "part=999999", "part={0}", "part={0}&other=abc"])
def test_bench_of_what_is_not_there_is_not_found(signed_in, brass, query):
    address = f"{reverse('fit-bench')}?{query.format(brass.pk)}"

    assert signed_in.get(address).status_code == 404


def test_two_pieces_are_chosen_by_number(signed_in, corner, brass):
    box = corner.parts["box"]
    which = {"first": brass.number, "second": box.number}

    assert signed_in.get(reverse("fit-bench"), which).url == bench(brass, other=box)
    wrong = signed_in.get(reverse("fit-bench"), {"first": "nonsense", "second": box.number})
    words = "No part has the number or tag “nonsense”, and none is described so."
    assert words in wrong.content.decode()


def test_piece_is_chosen_by_words_and_its_position_from_a_short_list(signed_in, corner, brass):
    index_record(brass)
    which = {"first": "worn brass", "vehicle": corner.vehicle.pk}
    page = signed_in.get(reverse("fit-bench"), which).content.decode()
    assert "Choose at which position of the vehicle." in page
    assert "L1 bearing brass: open" in page
    assert "A1 wheelset" not in page

    at = corner.at("L1", "bearing brass")
    answer = signed_in.get(reverse("fit-bench"), {**which, "position": at["position"].pk})
    assert answer.url == bench(brass, **at)


def test_words_of_several_parts_offer_each_as_a_link(signed_in, corner, brass):
    foreign, worn = corner.parts["foreign wheelset"], corner.parts["worn wheelset"]
    index_record(foreign)
    index_record(worn)

    sent = {"first": brass.number, "second": "wheelset"}
    page = signed_in.get(reverse("fit-bench"), sent).content.decode()

    assert "Several parts answer to “wheelset”." in page
    assert f"first={brass.number}&amp;second={foreign.number}" in page
    assert f"first={brass.number}&amp;second={worn.number}" in page


def test_bench_asks_against_what(signed_in, corner, brass):
    page = signed_in.get(reverse("fit-bench"), {"first": brass.number}).content.decode()
    assert "Say against what: another part, or a vehicle." in page

    which = {"first": brass.number, "vehicle": VehicleFactory().pk}
    page = signed_in.get(reverse("fit-bench"), which).content.decode()
    assert "has no position that takes such a part." in page


def test_pictures_stand_side_by_side(signed_in, corner, brass):
    PhotoFactory(part=brass, caption="its bore")
    corner.part("other brass", "bearing brass")
    PhotoFactory(part=corner.parts["other brass"])

    page = signed_in.get(reverse("part-compare", args=[brass.pk])).content.decode()

    assert f'alt="{brass}: its bore"' in page
    assert "Other parts identified as bearing brass" in page


def test_pictures_of_another_component_can_be_asked_for(signed_in, corner, brass):
    where = reverse("part-compare", args=[brass.pk])
    wheelset = corner.components["wheelset"]
    PhotoFactory(part=corner.parts["worn wheelset"])

    page = signed_in.get(where, {"component": wheelset.pk}).content.decode()

    assert "Other parts identified as wheelset" in page
