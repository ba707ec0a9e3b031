"""Recording the rows of a list: all that stand the test, in one go, once."""

from fractions import Fraction

import pytest
from django.core.exceptions import ValidationError

from catalog.models import Identification, Location, Move, Part, SearchEntry
from catalog.operations.imports import choose_columns, import_parts, keep_list
from catalog.queries.imports import PartReading
from catalog.reckoning.lengths import parse_length
from catalog.reckoning.numbers import AccessionNumber
from tests.factories import (
    AccessionFactory,
    CharacteristicFactory,
    ComponentFactory,
    LocationFactory,
    PartFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def batch(member):
    return keep_list("pallet.csv", b"Item\nring\n", by=member)


def reading(line, key=None, **told):
    values = {"description": "ring", **told.pop("values", {})}
    key = key or f"row {line}"
    return PartReading(line, values=values, key=key, fingerprint=key, **told)


def test_list_is_kept_byte_for_byte(batch, member):
    with batch.file.open("rb") as file:
        assert file.read() == b"Item\nring\n"
    assert (batch.name, batch.uploaded_by) == ("pallet.csv", member)


def test_chosen_columns_are_kept_for_the_next_step(batch, member):
    choose_columns(batch, ["component"], unit="mm", by=member)

    batch.refresh_from_db()
    assert (batch.columns, batch.unit) == (["component"], "mm")


def test_row_becomes_a_part_with_its_history_move_mark_and_words_to_find_it(batch, member):
    row = reading(2, location="Shed › rack 2", marks=("T.I. 2?7",))

    outcome = import_parts([row], batch=batch, by=member)

    part = Part.objects.get()
    assert (outcome.recorded, outcome.refused) == (1, {})
    assert part.history.get().history_user == member
    assert part.history.get().history_change_reason == "read in from a list"
    assert part.marks.get().history.get().history_change_reason == "mark read"
    assert Move.objects.get().to_location.path == "Shed › rack 2"
    assert SearchEntry.objects.get(kind="part", object_id=part.pk).words.count("T.I. 2?7") == 1


def test_component_becomes_a_proposal_that_others_have_to_agree_to(batch, member):
    hinge = ComponentFactory()

    import_parts([reading(2, component=hinge)], batch=batch, by=member)

    part, identification = Part.objects.get(), Identification.objects.get()
    assert (part.component, part.identification_status) == (hinge, "proposed")
    assert identification.reasons == "As written in the list pallet.csv, line 2."
    assert identification.made_by == member


def test_measurement_is_tied_to_the_component_s_characteristic_of_that_name(batch, member):
    bore = CharacteristicFactory(name="bore")
    rows = (("Bore", parse_length("2 1/2 in")), ("Lip", parse_length("6 mm")))

    import_parts([reading(2, component=bore.component, measurements=rows)], batch=batch, by=member)

    lip, measured = Part.objects.get().measurements.order_by("value_mm")
    assert (measured.characteristic, measured.name) == (bore, "bore")
    assert (lip.characteristic, lip.name) == (None, "Lip")
    assert Fraction(measured.value_mm) == Fraction(127, 2)


def test_numbers_go_on_after_the_last_and_around_those_in_the_list(batch, member):
    accession = AccessionFactory(year=2026, serial=4)
    PartFactory(accession=accession, item=6, number="2026.4.6")
    asked = AccessionNumber(2026, 4, 9)

    import_parts(
        [
            reading(2, accession=accession),
            reading(3, accession=accession, number=asked),
            reading(4, accession=accession),
        ],
        batch=batch,
        by=member,
    )

    numbers = Part.objects.order_by("item").values_list("number", flat=True)
    assert list(numbers) == ["2026.4.6", "2026.4.9", "2026.4.10", "2026.4.11"]


def test_number_that_a_part_ever_had_is_refused_and_the_others_are_recorded(batch, member):
    accession = AccessionFactory(year=2026, serial=4)
    part = PartFactory(accession=accession, item=9, number="2026.4.9")
    part.number, part.item = "2026.4.8", 8
    part.save()
    asked = AccessionNumber(2026, 4, 9)

    outcome = import_parts(
        [reading(2, accession=accession, number=asked), reading(3)], batch=batch, by=member
    )

    batch.refresh_from_db()
    assert outcome.refused == {2: "Number 2026.4.9 was given to a part before."}
    assert batch.refusals == {"2": "Number 2026.4.9 was given to a part before."}
    assert outcome.recorded == 1


def test_tag_that_is_used_meanwhile_is_refused_and_the_others_are_recorded(batch, member):
    PartFactory(number="2026.3.1", tag="K7Q-2M9V", description="drawhead")

    outcome = import_parts(
        [reading(2, values={"tag": "K7Q-2M9V"}), reading(3)], batch=batch, by=member
    )

    words = "Tag K7Q-2M9V is tied to 2026.3.1, drawhead. Take another tag."
    assert outcome.refused == {2: words}
    assert outcome.recorded == 1


def test_field_that_the_record_refuses_is_told_by_line(batch, member):
    outcome = import_parts(
        [reading(2, values={"quantity": 0}), reading(3, values={"usability": "splendid"})],
        batch=batch,
        by=member,
    )

    assert outcome.refused == {
        2: "A part is at least one piece.",
        3: "Value 'splendid' is not a valid choice.",
    }


def test_location_that_cannot_be_made_is_told_by_line(batch, member):
    LocationFactory(name="Yard", withdrawn_at="2026-04-02T10:00:00Z")

    outcome = import_parts([reading(2, location="Yard"), reading(3)], batch=batch, by=member)

    assert list(outcome.refused) == [2]
    assert outcome.refused[2].startswith("Location “Yard”: ")
    assert outcome.recorded == 1


def test_locations_are_made_once_with_what_is_above_them(batch, member):
    rows = [reading(2, location="Shed › box 1"), reading(3, location="shed › box 2")]

    import_parts(rows, batch=batch, by=member)

    paths = Location.objects.order_by("path").values_list("path", "kind")
    assert list(paths) == [
        ("Shed", "shelf"),
        ("Shed › box 1", "box"),
        ("Shed › box 2", "box"),
    ]


def test_row_that_became_a_part_meanwhile_is_passed_over(batch, member):
    import_parts([reading(2)], batch=batch, by=member)

    outcome = import_parts([reading(2), reading(3)], batch=batch, by=member)

    assert (outcome.recorded, outcome.refused) == (1, {})
    assert Part.objects.count() == 2


def test_what_only_the_database_refuses_leaves_nothing_of_the_list(batch, member):
    rows = [reading(2), reading(3, values={"surviving_share": 2})]

    with pytest.raises(ValidationError, match="at most the whole"):
        import_parts(rows, batch=batch, by=member)

    batch.refresh_from_db()
    assert not Part.objects.exists()
    assert batch.imported_at is None


def test_queries_do_not_grow_with_the_list_but_for_the_words_of_each_part(
    batch, member, django_assert_max_num_queries
):
    rows = [reading(line) for line in range(2, 102)]

    with django_assert_max_num_queries(140):
        import_parts(rows, batch=batch, by=member)
