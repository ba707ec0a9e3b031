"""How the rows of a list stand to one another and to the record."""

import pytest

from catalog.exchange.part_columns import guess_fields
from catalog.exchange.part_lists import read_list
from catalog.exchange.part_previews import summary_of
from catalog.exchange.tables import read_table
from catalog.operations.imports import import_parts, keep_list
from tests.factories import AccessionFactory, LocationFactory

pytestmark = pytest.mark.django_db


def listed(text, **options):
    table = read_table("list.csv", text.encode())
    return read_list(table, guess_fields(table), **options)


def recorded(text, by, **options):
    batch = keep_list("list.csv", text.encode(), by=by, **options)
    return import_parts(listed(text, **options).good_parts, batch=batch, by=by)


def test_two_rows_alike_are_two_parts_each_time(member):
    text = "Item,Qty\nring,1\nring,1\n"

    first = recorded(text, member)
    again = listed(text)

    assert first.recorded == 2
    assert summary_of(again) == "2 already here"


def test_one_more_row_like_the_others_is_one_more_part(member):
    recorded("Item,Qty\nring,1\n", member)

    assert summary_of(listed("Item,Qty\nring,1\nring,1\n")) == "1 good, 1 already here"


def test_the_same_row_in_another_donation_is_another_part(member):
    first, second = AccessionFactory.create_batch(2)
    recorded("Item,Qty\nring,1\n", member, accession=first)

    assert summary_of(listed("Item,Qty\nring,1\n", accession=second)) == "1 good"


def test_number_of_the_group_s_own_is_recognized_when_the_row_has_changed(member):
    recorded("No.,Item,Qty\nJB-1,ring,1\nJB-9,hinge,2\n", member)

    changed = listed("No.,Item,Qty\nJB-1,ring,4\nJB-9,hinge,2\n")

    assert summary_of(changed) == "1 different from the record, 1 already here"
    (row,) = changed.in_state("differs")
    (difference,) = row.known.differences
    assert (difference.field, difference.record, difference.row) == ("quantity", "1", "4")


def test_row_as_it_was_read_in_is_here_though_the_part_has_changed_since(member):
    text = "No.,Item,Qty\nJB-1,ring,1\nJB-9,hinge,2\n"
    recorded(text, member)
    (part, *_) = [row.known.part for row in listed(text).rows]
    part.quantity = 7
    part.save()

    assert summary_of(listed(text)) == "2 already here"


def test_number_that_stands_twice_is_a_problem_on_both_lines():
    rows = listed("No.,Item\nJB-1,ring\nJB-1,hinge\n").rows

    assert [row.problems for row in rows] == [
        ("This number stands on line 3 of this list too; only one can be right.",),
        ("This number stands on line 2 of this list too; only one can be right.",),
    ]


def test_location_is_found_by_the_end_of_its_path_or_will_be_made():
    shed = LocationFactory(name="Shed")
    LocationFactory(name="Rack 2", parent=shed)

    parts = listed("Item,Location\nring,rack 2\nhinge,Shed > Rack 2\nlatch,Yard\n")

    assert parts.new_locations == ("Yard",)


def test_problem_file_comes_back_without_the_reasons_it_had(member):
    parts = listed("Problem,Item,Qty\nold reason,ring,0\n")

    text = parts.problem_file().decode("utf-8-sig")

    assert text.splitlines() == ["Problem,Item,Qty", "A part is at least one piece.,ring,0"]


def test_reading_a_list_takes_the_same_queries_for_one_and_many_rows(
    member, django_assert_num_queries
):
    recorded("Item,Qty,Location\nring,1,Shed\n", member)

    for rows in (1, 40):
        text = "Item,Qty,Location\n" + "".join(f"ring,{n + 1},Shed\n" for n in range(rows))
        with django_assert_num_queries(6):
            listed(text)
