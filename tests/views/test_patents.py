"""Patents on the screen."""

import datetime as dt

import pytest
from django.urls import reverse

from catalog.models import Likeness, Patent, PatentFigure, ReferenceCharacter
from tests.factories import ComponentFactory, PartFactory, PatentFactory, PhotoFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def figure():
    return figured(PatentFactory())


def figured(patent, label="Fig. 1"):
    photo = PhotoFactory(part=None, patent=patent)
    figure = PatentFigure.objects.create(patent=patent, label=label, picture=photo)
    latch = ComponentFactory()
    ReferenceCharacter.objects.create(
        figure=figure, character="12", words="the catch", component=latch, x=0.5, y=0.25
    )
    Likeness.objects.create(figure=figure, part=PartFactory(), degree="same")
    return figure


def test_volunteer_records_a_patent_with_its_inventors(signed_in):
    typed = {
        "country": "XZ",
        "number": "1204",
        "title": "End door",
        "inventors": "A. Skarn\nR. Gill",
    }

    answer = signed_in.post(reverse("patent-add"), typed)

    patent = Patent.objects.get()
    assert answer.headers["Location"] == patent.get_absolute_url()
    assert patent.inventors.count() == 2


def test_patent_form_shows_what_is_recorded_and_keeps_it(signed_in):
    signed_in.post(
        reverse("patent-add"),
        {"country": "US", "number": "88929", "title": "Brake", "inventors": "G. Vane"},
    )
    patent = Patent.objects.get()
    form = signed_in.get(reverse("patent-change", args=[patent.pk])).context["form"]

    typed = {name: form[name].value() or "" for name in form.fields} | {"title": "Air brake"}
    signed_in.post(reverse("patent-change", args=[patent.pk]), typed)

    patent.refresh_from_db()
    assert patent.title == "Air brake"
    assert [party.name for party in patent.inventors.all()] == ["G. Vane"]


def test_date_that_does_not_agree_is_warned_of_with_the_reason(signed_in):
    patent = PatentFactory(country="US", number="88929", issued_on=dt.date(1869, 4, 16))

    page = signed_in.get(patent.get_absolute_url()).content.decode()

    assert "16 April 1869 was a Friday" in page


def test_title_block_gives_the_number_of_a_patent_once(signed_in):
    patent = PatentFactory(country="XZ", number="4117", title="End door")

    page = signed_in.get(patent.get_absolute_url()).content.decode()

    block = page.partition('class="title-block"')[2].partition("</header>")[0]
    assert block.count("XZ 4117") == 1


def test_figure_is_added_and_its_character_pointed_at(signed_in, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    patent = PatentFactory()
    signed_in.post(
        reverse("patent-figure-add", args=[patent.pk]), {"label": "Fig. 1", "file": picture()}
    )
    figure = patent.figures.get()

    spot = {"character": "12", "across": "50", "down": "25", "words": "the catch"}
    signed_in.post(reverse("character-add", args=[figure.pk]), spot)

    row = figure.characters.get()
    assert (row.character, row.x, row.y) == ("12", 0.5, 0.25)


def test_likeness_of_a_part_is_recorded_by_its_number(signed_in, figure):
    part = PartFactory(number="2026.4.17")
    typed = {"part": "2026.4.17", "degree": "similar", "differences": "longer tongue"}

    signed_in.post(reverse("likeness-add", args=[figure.pk]), typed)

    assert figure.likenesses.get(part=part).differences == "longer tongue"


@pytest.mark.parametrize(
    ("name", "typed", "words"),
    [
        (
            "likeness-add",
            {"part": "9999", "degree": "same"},
            "No part has the number or tag “9999”",
        ),
        ("likeness-add", {"degree": "same"}, "Say which part or which component"),
        ("character-add", {"character": "7", "across": "150", "down": "1"}, "less than or equal"),
    ],
)
def test_what_is_wrong_on_a_figure_is_told_beside_it(signed_in, figure, name, typed, words):
    page = signed_in.post(reverse(name, args=[figure.pk]), typed).content.decode()

    assert words in page


def test_characters_likenesses_and_figures_come_off(as_curator, figure):
    character, likeness = figure.characters.get(), figure.likenesses.get()

    as_curator.post(reverse("character-remove", args=[character.pk]))
    as_curator.post(reverse("likeness-remove", args=[likeness.pk]))
    as_curator.post(reverse("patent-figure-remove", args=[figure.pk]))

    rows = (ReferenceCharacter, Likeness, PatentFigure)
    assert [model.objects.count() for model in rows] == [0, 0, 0]


def test_worn_marking_is_read_with_patents_that_agree(signed_in):
    PatentFactory(country="US", number="655838", issued_on=dt.date(1900, 8, 14), title="Latch")

    answer = signed_in.get(reverse("patent-reader"), {"marking": "PAT'D ?UG 1? 190?"})

    page = answer.content.decode()
    assert "fits 100 days" in page
    assert "Latch" in page
    assert answer.context["days"][0][0] == dt.date(1900, 8, 14)


def test_marking_of_nothing_is_told_what_to_write(signed_in):
    page = signed_in.get(reverse("patent-reader"), {"marking": ""}).content.decode()

    assert "This field is required." in page


@pytest.mark.parametrize("name", ["patent-list", "patent-detail", "patent-figure"])
def test_pages_take_the_same_queries_for_one_and_three(signed_in, count_queries, name):
    figure = figured(PatentFactory())
    keys = {"patent-list": [], "patent-detail": [figure.patent_id], "patent-figure": [figure.pk]}
    address = reverse(name, args=keys[name])
    one = count_queries(signed_in, address)

    figured(figure.patent, "Fig. 2")
    figured(PatentFactory())
    Likeness.objects.create(figure=figure, part=PartFactory(), degree="same")

    assert count_queries(signed_in, address) == one
