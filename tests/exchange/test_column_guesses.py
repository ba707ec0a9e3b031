"""Guessing the columns of spreadsheets as different groups lay them out."""

from random import Random

import pytest

from catalog.exchange.column_guesses import guess_columns, is_heading
from catalog.reckoning.codes import new_tag_code

FIELDS = (
    "number",
    "tag",
    "description",
    "component",
    "quantity",
    "material",
    "condition",
    "usability",
    "location",
    "marks",
    "remark",
    "survives",
    "ignore",
)


def guessed(header, *rows):
    return list(guess_columns(header, rows, FIELDS).values())


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("No.", "number"),
        ("#", "number"),
        ("Part No", "number"),
        ("ACCESSION NUMBER", "number"),
        ("Catalogue no.", "number"),
        ("Tag", "tag"),
        ("QR code", "tag"),
        ("Description", "description"),
        ("Desc.", "description"),
        ("What is it?", "description"),
        ("Component", "component"),
        ("Item", "component"),
        ("Type of part", "component"),
        ("Qty", "quantity"),
        ("QTY.", "quantity"),
        ("No. off", "quantity"),
        ("How many", "quantity"),
        ("Mat'l", "material"),
        ("Matl.", "material"),
        ("made of", "material"),
        ("Cond.", "condition"),
        ("State of repair", "condition"),
        ("Useable?", "usability"),
        ("Status", "usability"),
        ("Shelf", "location"),
        ("Shelf no. in store", "location"),
        ("Stored in", "location"),
        ("Cast marks", "marks"),
        ("Casting no.", "marks"),
        ("Notes", "remark"),
        ("Further remarks", "remark"),
        ("How much survives", "survives"),
        ("% complete", "survives"),
        ("Donor", "remark"),
        ("dia", "remark"),
        ("Centres (in)", "remark"),
        ("Problem", "ignore"),
        ("Price", "ignore"),
        ("", "ignore"),
    ],
)
def test_a_heading_of_its_own_is_understood(heading, field):
    assert guessed([heading]) == [field]


def test_a_whole_sheet_in_american_usage():
    header = ["Cat. No.", "Item", "Description", "Qty", "Material", "Condition", "Bin", "Remarks"]

    assert guessed(header) == [
        "number",
        "component",
        "description",
        "quantity",
        "material",
        "condition",
        "location",
        "remark",
    ]


def test_a_whole_sheet_in_british_usage():
    header = ["Ref", "What is it", "No off", "Dia", "Where kept", "Given by", "Markings", "Notes"]

    assert guessed(header) == [
        "number",
        "description",
        "quantity",
        "remark",
        "location",
        "remark",
        "marks",
        "remark",
    ]


def test_a_second_column_of_a_kind_is_kept_as_a_remark():
    assert guessed(["Rack", "Shelf", "Item"]) == ["location", "remark", "component"]


def test_a_field_the_caller_has_is_used():
    assert guess_columns(["Donor", "Size"], [], ("donor", "remark")) == {0: "donor", 1: "remark"}


def test_without_a_remark_field_what_has_no_place_is_ignored():
    assert guess_columns(["Donor"], [], ("number",)) == {0: "ignore"}


def test_no_means_number_when_the_cells_differ_and_quantity_when_they_repeat():
    assert guessed(["No.", "Item"], ["1", "box"], ["2", "brass"], ["3", "latch"])[0] == "number"
    assert guessed(["No.", "Item"], ["1", "box"], ["4", "brass"], ["1", "latch"])[0] == "quantity"


def test_a_vague_heading_is_decided_by_the_cells():
    assert guessed(["Item", "What"], ["1", "box"], ["2", "brass"]) == ["number", "description"]
    assert guessed(["Item"], ["journal box with a cracked lid"], ["half a drawhead, worn"]) == [
        "description"
    ]
    assert guessed(["Item"], ["hinge"], ["brass"]) == ["component"]


def test_columns_without_headings_are_judged_by_their_cells():
    rows = [
        ("2026.4.1", "journal box with lid, worn", "2", "x"),
        ("2026.4.2", "pair of long strap hinges", "2", ""),
    ]

    assert guessed(["Column 1", "Column 2", "Column 3", "Column 4"], *rows) == [
        "number",
        "description",
        "quantity",
        "ignore",
    ]


def test_tag_codes_are_known_under_any_heading():
    chance = Random(1889)
    rows = [(new_tag_code(chance), "hinge") for _ in range(5)]

    assert guessed(["Blue thing", "Item"], *rows) == ["tag", "component"]


def test_counts_under_a_strange_heading_are_not_taken_for_quantities():
    assert guessed(["Item", "Year"], ["box", "1903"], ["brass", "1903"]) == ["component", "ignore"]


def test_only_whole_headings_count_as_headings():
    assert is_heading("Qty.")
    assert not is_heading("Parts list of the Brannock Vale gift")
    assert not is_heading("")
