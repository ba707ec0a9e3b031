"""The bench queue on the screen: chips, the next part, and the way back from every step."""

import re
from html import unescape

import pytest
from django.urls import reverse

from catalog.models import Part
from tests.factories import (
    AccessionFactory,
    ComponentFactory,
    LocationFactory,
    PartFactory,
    PhotoFactory,
)

pytestmark = pytest.mark.django_db
TAG = "K7Q-2M9V"


def typed(part, **values):
    told = {"quantity": part.quantity, "usability": part.usability}
    return {**told, "description": part.description, **values}


def undo_in(answer):
    """Return the address and the values that the undo button of the page sends."""
    page = answer.content.decode()
    button = page.index('data-key="z"')
    form = page[page.rindex("<form", 0, button) : button]
    values = re.findall(r'type="hidden" name="(\w+)" value="(\w*)"', form)
    return unescape(re.search(r'action="([^"]+)"', form)[1]), dict(values)


def test_list_counts_each_reason_and_shows_the_chosen_one(as_curator):
    shelf = LocationFactory()
    PartFactory(location=shelf, tag=TAG)
    PartFactory(location=shelf)

    page = as_curator.get(reverse("bench"), {"show": "untagged"})

    counts = {chip["words"]: chip["count"] for chip in page.context["chips"]}
    assert counts == {
        "all that waits": 2,
        "without a tag": 1,
        "not identified": 2,
        "without a location": 0,
        "perhaps entered twice": 0,
    }
    assert [reasons for _, _, reasons in page.context["rows"]] == [
        ["without a tag", "not identified"]
    ]


def test_saving_opens_the_next_part_of_the_same_choice(as_curator):
    first, placed, last = PartFactory(), PartFactory(location=LocationFactory()), PartFactory()
    assert placed.pk < last.pk

    answer = as_curator.post(
        f"{reverse('bench-part', args=[first.pk])}?show=placeless", typed(first, tag=TAG)
    )

    first.refresh_from_db()
    assert first.tag == TAG
    assert answer.headers["Location"] == f"{reverse('bench-part', args=[last.pk])}?show=placeless"


def test_last_part_leads_back_to_the_list_and_says_what_is_left(as_curator):
    part = PartFactory()

    answer = as_curator.post(reverse("bench-part", args=[part.pk]), typed(part), follow=True)

    assert answer.redirect_chain[-1][0] == reverse("bench")
    assert "That was the last one. 1 still wait here." in answer.content.decode()


def test_saved_step_is_taken_back_by_its_button(as_curator):
    part, component, shelf = PartFactory(), ComponentFactory(), LocationFactory()
    values = typed(part, tag=TAG, quantity=4, component=component.pk, location=shelf.pk)
    saved = as_curator.post(reverse("bench-part", args=[part.pk]), values, follow=True)

    answer = as_curator.post(*undo_in(saved))

    now = Part.objects.get(pk=part.pk)
    assert answer.headers["Location"] == reverse("bench-part", args=[part.pk])
    assert (now.tag, now.quantity, now.component, now.location) == (None, 1, None, None)


def test_refusal_stays_on_the_part_and_keeps_what_was_typed(as_curator):
    part = PartFactory()

    page = as_curator.post(
        reverse("bench-part", args=[part.pk]), typed(part, tag="K7Q-29MV", description="strap")
    )

    assert "two have changed places" in page.context["form"].errors["tag"][0]
    assert 'value="strap"' in page.content.decode()


def test_twin_is_withdrawn_with_the_reason_and_brought_back(as_curator):
    part, other = PartFactory(), PartFactory(number="2026.4.3")
    for each in (part, other):
        PhotoFactory(part=each, sha256="9" * 64)
    page = as_curator.get(reverse("bench-part", args=[part.pk])).content.decode()
    assert "This is the same piece as 2026.4.3" in page

    done = as_curator.post(
        reverse("bench-same", args=[part.pk]), {"other": "2026.4.3"}, follow=True
    )

    part.refresh_from_db()
    assert part.withdrawn_reason == "the same piece as 2026.4.3"
    as_curator.post(*undo_in(done))
    part.refresh_from_db()
    assert not part.is_withdrawn


def test_unnumbered_twin_is_named_by_what_it_is_called(as_curator):
    part, other = PartFactory(), PartFactory(number=None, number_sort="")

    as_curator.post(reverse("bench-same", args=[part.pk]), {"other": other.label})

    part.refresh_from_db()
    assert part.withdrawn_reason == f"the same piece as unnumbered {other.pk}"


def test_twin_that_is_not_there_is_refused_beside_the_field(as_curator):
    part = PartFactory()

    page = as_curator.post(reverse("bench-same", args=[part.pk]), {"other": "2026.9.9"})

    assert page.context["same_form"].errors == {
        "other": ["No part has the number or tag “2026.9.9”."]
    }


def test_piece_of_its_own_leaves_the_doubtful_and_comes_back_by_undo(as_curator):
    pair = PartFactory.create_batch(2)
    for part in pair:
        PhotoFactory(part=part, sha256="9" * 64)
    address = f"{reverse('bench-apart', args=[pair[0].pk])}?show=doubtful"

    done = as_curator.post(address, follow=True)

    assert done.redirect_chain[-1][0] == f"{reverse('bench-part', args=[pair[1].pk])}?show=doubtful"
    assert done.context["neighbors"].count == 1
    as_curator.post(*undo_in(done))
    assert (
        as_curator.get(reverse("bench"), {"show": "doubtful"}).context["page"].paginator.count == 2
    )


def test_unknown_step_is_refused_in_words(as_curator):
    part = PartFactory()

    page = as_curator.post(reverse("bench-undo", args=[part.pk, "step"]), follow=True)

    assert "It is not known which step was meant" in page.content.decode()


def test_bench_is_for_curators(signed_in):
    part = PartFactory()
    for address in (reverse("bench"), reverse("bench-part", args=[part.pk])):
        assert signed_in.get(address).status_code == 403


def test_pages_take_the_same_queries_for_one_and_three(as_curator, count_queries):
    accession = AccessionFactory()

    def fill():
        part = PartFactory(accession=accession, description="strap", location=LocationFactory())
        PhotoFactory(part=part, sha256="9" * 64, is_main=True)
        PhotoFactory(part=part)
        return part

    part, _ = fill(), fill()
    pages = (reverse("bench"), reverse("bench-part", args=[part.pk]))
    few = [count_queries(as_curator, page) for page in pages]
    for _ in range(2):
        fill()

    assert [count_queries(as_curator, page) for page in pages] == few
