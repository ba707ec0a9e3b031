"""How a row of a list is read as a part."""

import pytest

from catalog.exchange.part_lists import read_list
from catalog.exchange.tables import read_table
from tests.factories import AccessionFactory, ComponentAliasFactory, ComponentFactory

pytestmark = pytest.mark.django_db


def read(header, row, *fields, **options):
    """Read one row whose columns mean ``fields``; return it with what it is read as."""
    table = read_table("list.csv", f"{header}\n{row}\n".encode())
    (listed,) = read_list(table, fields, **options).rows
    return listed


def test_component_is_found_by_another_name():
    journal_box = ComponentFactory(name="journal box")
    ComponentAliasFactory(component=journal_box, name="axlebox")

    row = read("Item,Qty", "Axle-boxes,2", "component", "quantity")

    assert row.part.component == journal_box
    assert row.notes == ("“Axle-boxes” is known here as journal box.",)


def test_unknown_component_is_kept_as_words():
    row = read("Item,Detail", "valance,bent", "component", "description")

    assert row.part.component is None
    assert row.part.values["description"] == "valance: bent"
    assert row.notes == (
        "“valance” is no component known here: kept as words, nothing identified.",
    )


def test_word_for_two_components_is_left_to_people():
    for name in ("bogie", "hand cart"):
        ComponentAliasFactory(component=ComponentFactory(name=name), name="truck")

    row = read("Item,Qty", "truck,1", "component", "quantity")

    assert row.part.component is None
    assert row.notes == ("“truck” may be bogie or hand cart: kept as words, nothing identified.",)


def test_words_that_are_a_component_s_name_identify_it():
    hinge = ComponentFactory(name="hinge")

    assert read("What,Qty", "Hinges,2", "description", "quantity").part.component == hinge


def test_words_too_long_to_keep_are_a_problem():
    row = read("What,Qty", f"{'long ' * 50}end,2", "description", "quantity")

    assert row.problems == (
        "Description has 253 characters where 240 fit. Shorten it, and put the rest into the "
        "remarks.",
    )


def test_remarks_keep_their_headings_and_what_is_not_understood():
    header, fields = "Item,Donor,Remarks,Use,Weight", ("remark", "remark", "usability", "mass")

    row = read(header, "ring,Ada Skarn,bent,rusty,heavy", "component", *fields)

    assert row.part.values["remarks"] == "Donor: Ada Skarn\nbent\nUse: rusty\nWeight: heavy"


def test_number_of_another_donation_is_a_problem():
    accession = AccessionFactory(year=2026, serial=4)

    row = read("No.,Item", "2026.5.1,ring", "number", "component", accession=accession)

    assert row.problems == (
        "2026.5.1 belongs to donation 2026.5, but this list is read into 2026.4.",
    )


def test_number_of_a_donation_that_is_not_recorded_is_a_problem():
    row = read("No.,Item", "2026.5.1,ring", "number", "component")

    assert row.problems == ("There is no donation 2026.5 for 2026.5.1. Record the donation first.",)


def test_number_says_the_donation_where_none_was_chosen():
    accession = AccessionFactory(year=2026, serial=5)

    part = read("No.,Item", "2026.5.1,ring", "number", "component").part

    assert (part.accession, str(part.number)) == (accession, "2026.5.1")


def test_number_of_the_group_s_own_is_kept_as_a_remark():
    part = read("No.,Item", "JB-17,ring", "number", "component").part

    assert part.values["remarks"] == "No.: JB-17"
    assert part.key == "own jb-17"


def test_every_problem_of_a_row_is_told():
    row = read("Item,Qty,Share", "ring,0,none", "component", "quantity", "survives")

    assert len(row.problems) == 2


def test_fingerprint_leaves_the_reason_of_an_earlier_import_out():
    fields = ("component", "quantity")

    plain = read("Item,Qty", "ring,2", *fields)
    returned = read("Problem,Item,Qty", "was wrong,ring,2", "ignore", *fields)

    assert plain.part.fingerprint == returned.part.fingerprint
