"""Reading a list in on the screen, from the file to the parts."""

import csv
import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalog.models import ImportBatch, Location, Part
from tests.factories import AccessionFactory, ComponentAliasFactory, ComponentFactory, PartFactory

pytestmark = pytest.mark.django_db

GOOD = "Item,Qty,Bore,Where\naxlebox,4,2 1/2 in,Shed / rack 2\nbroken bracket,1,,\n"


@pytest.fixture
def journal_box(db):
    component = ComponentFactory(name="journal box")
    ComponentAliasFactory(component=component, name="axlebox")
    return component


def upload(client, text, *, name="pallet.csv", accession=None):
    data = text if isinstance(text, bytes) else text.encode()
    file = SimpleUploadedFile(name, data)
    told = {"file": file, "accession": accession.pk if accession else ""}
    return client.post(reverse("part-import"), told)


def to_preview(client, text, *, accession=None, **columns):
    """Upload ``text`` and take the guesses for its columns, but for those given."""
    address = upload(client, text, accession=accession).headers["Location"]
    form = client.get(address).context["form"]
    told = {name: field.initial for name, field in form.fields.items()}
    return client.post(address, {**told, **columns}, follow=True)


def record(client):
    batch = ImportBatch.objects.latest("pk")
    return client.post(reverse("part-import-record", args=[batch.pk]), follow=True)


def problems_of(answer):
    return [problem for row in answer.context["preview"].problems for problem in row.problems]


def test_columns_are_guessed_and_shown_with_their_values(signed_in):
    answer = signed_in.get(upload(signed_in, GOOD).headers["Location"])

    columns = answer.context["form"].columns
    assert [column.field for column in columns] == [
        "component",
        "quantity",
        "measurement",
        "location",
    ]
    assert columns[0].samples == ("axlebox", "broken bracket")


def test_columns_cannot_be_read_as_the_same_thing_twice(signed_in):
    address = upload(signed_in, "Item,Qty,Other\nbox,1,2\n").headers["Location"]
    told = {"column_0": "component", "column_1": "quantity", "column_2": "quantity"}

    answer = signed_in.post(address, told)

    assert answer.context["form"].errors == {
        "column_2": ["“Qty” is read as this already; choose one of the two."]
    }


def test_preview_records_nothing_and_says_what_it_reads(signed_in, journal_box):
    answer = to_preview(signed_in, GOOD, accession=AccessionFactory())

    first, second = answer.context["preview"].good
    assert (first.title, first.quantity, first.makes_location) == ("journal box", 4, True)
    assert first.facts == (("Bore", "2 1/2 in (63.5 mm)"),)
    assert first.notes == ("“axlebox” is known here as journal box.",)
    assert second.title == "broken bracket"
    assert not Part.objects.exists()
    assert not Location.objects.exists()


def test_recording_makes_parts_with_all_that_was_read(signed_in, journal_box):
    accession = AccessionFactory()
    to_preview(signed_in, GOOD, accession=accession)

    answer = record(signed_in)

    box, bracket = Part.objects.order_by("item")
    assert "2 parts are recorded." in answer.content.decode()
    assert (box.number, box.component, box.quantity) == (f"{accession}.1", journal_box, 4)
    assert box.identification_status == Part.Standing.PROPOSED
    assert str(box.location) == "Shed › rack 2"
    assert box.measurements.get().text == "2 1/2 in"
    assert bracket.description == "broken bracket"


def test_the_same_file_again_changes_nothing(signed_in, journal_box):
    accession = AccessionFactory()
    to_preview(signed_in, GOOD, accession=accession)
    record(signed_in)

    answer = to_preview(signed_in, GOOD, accession=accession)
    record(signed_in)

    assert answer.context["preview"].summary == "2 already here"
    assert Part.objects.count() == 2


def test_recording_twice_from_two_browsers_records_once(signed_in, journal_box):
    to_preview(signed_in, GOOD)
    record(signed_in)

    record(signed_in)

    assert Part.objects.count() == 2


def test_problem_rows_wait_are_downloaded_mended_and_read_in(signed_in):
    listed = "Item,Qty\nbracket,3.5\nhinge,2\nlatch,0\n"
    to_preview(signed_in, listed)
    record(signed_in)
    batch = ImportBatch.objects.get()

    file = signed_in.get(reverse("part-import-problems", args=[batch.pk]))
    text = file.content.decode("utf-8-sig")
    mended = text.replace(",3.5", ",4").replace(",0", ",1")
    answer = to_preview(signed_in, mended)
    record(signed_in)

    reasons = [row[0] for row in csv.reader(io.StringIO(text))]
    assert reasons[0] == "Problem"
    assert reasons[2] == "A part is at least one piece."
    assert answer.context["preview"].summary == "2 good"
    assert sorted(Part.objects.values_list("description", "quantity")) == [
        ("bracket", 4),
        ("hinge", 2),
        ("latch", 1),
    ]


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        ("bracket,0,", "A part is at least one piece."),
        (
            "bracket,3.5,",
            "Count whole pieces, not 3.5: half a piece is one piece of which half survives.",
        ),
        (
            "bracket,a few,",
            "“a few” is not a quantity. Write a whole number, and what else is to be said into "
            "the remarks.",
        ),
        (
            "bracket,1",
            "This row has 2 cells where the header has 3. A cell is missing.",
        ),
        (
            ",2,",
            "Nothing says what this is: give a component, some words, a mark or a tag.",
        ),
        (
            "bracket,1,K7O-2M9V",
            "Tag “K7O-2M9V”: “O” is never printed on a tag; look at the tag again.",
        ),
    ],
)
def test_a_bad_row_says_what_is_wrong_and_holds_no_other_up(signed_in, row, problem):
    listed = f"Item,Qty,Tag\nhinge,1,\n{row}\n"

    answer = to_preview(signed_in, listed, column_2="tag")
    record(signed_in)

    assert problems_of(answer) == [problem]
    assert [part.description for part in Part.objects.all()] == ["hinge"]


def test_a_tag_that_stands_twice_in_the_list_is_named_on_both_lines(signed_in):
    answer = to_preview(signed_in, "Item,Tag\nhinge,K7Q-2M9V\nlatch,k7q2m9v\n")

    said = "Tag K7Q-2M9V stands on line {} of this list too; only one can be right."
    assert problems_of(answer) == [said.format(3), said.format(2)]


def test_a_tag_that_is_on_a_part_names_it(signed_in):
    PartFactory(number="2026.3.1", tag="K7Q-2M9V", description="drawhead")

    answer = to_preview(signed_in, "Item,Tag\nhinge,K7Q-2M9V\n")

    assert problems_of(answer) == ["Tag K7Q-2M9V is tied to 2026.3.1, drawhead. Take another tag."]


def test_a_formula_is_kept_as_words(signed_in):
    answer = to_preview(signed_in, "Item,Remarks\nhinge,\"=cmd|' /C calc'!A0\"\n")
    record(signed_in)

    assert answer.context["preview"].good[0].notes[0] == (
        "“=cmd|' /C calc'!A0” begins like a formula; it is kept as words and never computed."
    )
    assert Part.objects.get().remarks == "=cmd|' /C calc'!A0"


@pytest.mark.parametrize(
    ("name", "data", "sentence"),
    [
        ("photo.csv", b"\x89PNG\r\n", "“photo.csv” is a picture, not a spreadsheet."),
        ("list.csv", b"", "The submitted file is empty."),
        (
            "long.csv",
            b"Item,Qty\n" + b"hinge,1\n" * 50_000,
            "This spreadsheet has more than 20,000 rows. Split it into files of at most 20,000 "
            "rows, each with the header on top, and import them one after another.",
        ),
    ],
)
def test_what_is_no_list_is_refused_in_words(signed_in, name, data, sentence):
    answer = upload(signed_in, data, name=name)

    assert answer.context["form"].errors["file"] == [sentence]
    assert not ImportBatch.objects.exists()


def test_a_length_without_unit_waits_for_one_to_be_chosen(signed_in):
    listed = "Item,Bore\nring,14\n"

    unread = to_preview(signed_in, listed)
    read = to_preview(signed_in, listed, unit="in")

    assert "14" in problems_of(unread)[0]
    assert read.context["preview"].good[0].facts == (("Bore", "14 (355.6 mm)"),)


def test_a_row_that_says_something_else_of_a_numbered_part_overwrites_nothing(signed_in):
    accession = AccessionFactory(year=2026, serial=4)
    to_preview(signed_in, "No.,Item,Qty\n2026.4.17,hinge,9\n", accession=accession)
    record(signed_in)

    answer = to_preview(signed_in, "No.,Item,Qty\n2026.4.17,hinge,8\n", accession=accession)
    record(signed_in)

    (row,) = answer.context["preview"].different
    (difference,) = row.differences
    assert (difference.field, difference.record, difference.row) == ("quantity", "9", "8")
    assert Part.objects.get(number="2026.4.17").quantity == 9


def test_import_is_for_volunteers(as_visitor):
    assert as_visitor.get(reverse("part-import")).status_code == 403


def test_preview_takes_the_same_queries_for_one_and_three(signed_in, count_queries, journal_box):
    def queries(rows):
        to_preview(signed_in, "Item,Where\n" + "axlebox,Shed\n" * rows)
        address = reverse("part-import-preview", args=[ImportBatch.objects.latest("pk").pk])
        return count_queries(signed_in, address)

    assert queries(1) == queries(3)


def test_result_takes_the_same_queries_for_one_and_three(signed_in, count_queries, journal_box):
    def queries(name, rows):
        to_preview(signed_in, f"Item,Where,{name}\n" + "axlebox,Shed,x\n" * rows)
        record(signed_in)
        address = reverse("part-import-result", args=[ImportBatch.objects.latest("pk").pk])
        return count_queries(signed_in, address)

    assert queries("a", 1) == queries("b", 3)
