"""Patents are recorded with people by name, figures with pictures, or refused in words."""

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Party, Patent, PatentFigure, Photo
from catalog.operations.patents import (
    add_character,
    add_figure,
    add_likeness,
    change_figure,
    change_patent,
    record_patent,
    remove_character,
    remove_figure,
    remove_likeness,
)
from tests.factories import ComponentFactory, PartFactory, PartyFactory, PatentFactory
from tests.samples import picture

pytestmark = pytest.mark.django_db

TOLD = {"country": "xz", "number": "1,204", "title": "End door"}


@pytest.fixture
def figure(curator, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    return add_figure(PatentFactory(), picture(), label="Fig. 1", title="Door", by=curator)


def test_patent_keeps_plain_codes_and_finds_or_records_its_people(curator):
    known = PartyFactory(name="Ada Skarn")
    people = {"inventors": ["ada skarn", "", "R. Gill"], "assignee": "Tolvane Ironworks"}

    patent = record_patent(TOLD | people, by=curator)

    assert (patent.country, patent.number) == ("XZ", "1204")
    assert [party.name for party in patent.inventors.all()] == ["Ada Skarn", "R. Gill"]
    assert known in patent.inventors.all()
    assert patent.assignee.kind == Party.Kind.ORGANIZATION


@pytest.mark.parametrize(
    ("told", "field"),
    [
        ({"country": "QQQ"}, "country"),
        ({"kind": "!"}, "kind"),
        ({"country": "GB", "number": "4321"}, "year"),
        ({"country": "GB", "number": "123456", "year": 1889}, "year"),
    ],
)
def test_codes_that_are_none_are_refused_beside_their_field(curator, told, field):
    with pytest.raises(ValidationError) as refusal:
        record_patent(TOLD | told, by=curator)

    assert list(refusal.value.message_dict) == [field]
    assert not Patent.objects.exists()


def test_same_patent_twice_is_refused(curator):
    record_patent(TOLD, by=curator)

    with pytest.raises(ValidationError, match="already recorded"):
        record_patent(TOLD | {"number": "1204"}, by=curator)


def test_change_may_leave_out_what_stays(curator):
    patent = record_patent(TOLD, by=curator)

    change_patent(patent, {"title": "End door for wagons"}, by=curator)

    patent.refresh_from_db()
    assert (patent.country, patent.title) == ("XZ", "End door for wagons")


def test_figure_keeps_its_picture_with_the_patent(figure):
    assert figure.picture.patent == figure.patent
    assert (figure.label, figure.sequence, figure.picture.role) == ("Fig. 1", 1, "drawing")


def test_second_figure_of_a_label_is_refused_and_its_picture_not_kept(curator, figure):
    with pytest.raises(ValidationError, match="already has a figure"):
        add_figure(figure.patent, picture(color="blue"), label="Fig. 1", by=curator)

    assert Photo.objects.count() == 1


def test_figure_that_is_taken_off_leaves_its_picture(curator, figure):
    character = add_character(figure, character="12", at=(0.5, 0.25), by=curator)
    add_likeness(figure, degree="same", part=PartFactory(), by=curator)
    change_figure(figure, {"title": "Latch"}, by=curator)

    remove_figure(figure, by=curator)

    assert not PatentFigure.objects.exists()
    assert Photo.objects.exists()
    assert character.history.first().history_type == "-"


def test_character_outside_the_figure_is_refused(curator, figure):
    with pytest.raises(ValidationError, match="outside the figure"):
        add_character(figure, character="12", at=(1.5, 0.25), by=curator)


def test_character_names_a_component_and_can_be_removed(curator, figure):
    latch = ComponentFactory(name="latch")

    row = add_character(
        figure, character="12", at=(0.5, 0.25), words="the catch", component=latch, by=curator
    )
    assert (row.component, row.words) == (latch, "the catch")
    remove_character(row, by=curator)

    assert not figure.characters.exists()


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"degree": "same"}, "which part or which component"),
        ({"degree": "similar", "component": True}, "what differs"),
    ],
)
def test_likeness_that_says_nothing_is_refused(curator, figure, told, words):
    if told.get("component"):
        told = told | {"component": ComponentFactory()}

    with pytest.raises(ValidationError, match=words):
        add_likeness(figure, **told, by=curator)


def test_likeness_can_be_taken_back(curator, figure):
    row = add_likeness(
        figure, degree="differs", part=PartFactory(), differences="longer", by=curator
    )

    remove_likeness(row, by=curator)

    assert not figure.likenesses.exists()
