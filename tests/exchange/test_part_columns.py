"""What the columns of a list of parts are taken to mean."""

import pytest

from catalog.exchange.part_columns import columns_of, guess_fields
from catalog.exchange.tables import read_table


def guessed(text):
    return guess_fields(read_table("list.csv", text.encode()))


def test_lengths_under_headings_of_dimensions_become_measurements():
    assert guessed("Item,Bore,Length,Size\nring,2 in,3 in,2 x 3\n") == (
        "component",
        "measurement",
        "measurement",
        "remark",
    )


@pytest.mark.parametrize(
    ("numbers", "field"),
    [(("1", "2", "3"), "line"), (("7", "9", "8"), "number"), (("2026.4.1", "2026.4.2"), "number")],
)
def test_numbers_that_only_count_the_lines_are_no_numbers_of_parts(numbers, field):
    rows = "".join(f"{number},hinge\n" for number in numbers)

    assert guessed(f"No.,Item\n{rows}")[0] == field


def test_state_is_usability_where_every_cell_is_one():
    assert guessed("Item,State\nring,good\nhinge,scrap\n")[1] == "usability"
    assert guessed("Item,State\nring,good\nhinge,rusty\n")[1] == "condition"


def test_usability_is_not_read_from_two_columns():
    assert guessed("Item,Usability,Condition\nring,ready,good\n")[1:] == ("usability", "condition")


def test_what_has_no_field_of_its_own_is_kept_as_a_remark():
    assert guessed("Item,Donor,Received\nring,Ada Skarn,May\n")[1:] == ("remark", "remark")


def test_columns_show_three_values_and_what_was_chosen():
    table = read_table("list.csv", b"Item,Qty\na,1\nb,\nc,2\nd,3\ne,4\n")

    quantity = columns_of(table, ["component", "ignore"])[1]

    assert (quantity.heading, quantity.samples, quantity.field) == (
        "Qty",
        ("1", "2", "3"),
        "ignore",
    )
