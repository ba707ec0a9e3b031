"""What single cells of a list of parts say."""

from decimal import Decimal

import pytest

from catalog.exchange.part_cells import (
    CellError,
    read_marks,
    read_mass,
    read_measurement,
    read_quantity,
    read_share,
    read_tag,
    read_usability,
)


@pytest.mark.parametrize(
    ("cell", "quantity"), [("4", 4), ("4 off", 4), ("4pcs.", 4), ("4.0", 4), ("12 No", 12)]
)
def test_quantity_is_read_as_groups_write_it(cell, quantity):
    assert read_quantity(cell) == quantity


@pytest.mark.parametrize("cell", ["0", "3.5", "-2", "about 12", "1,000", "pair", "²"])
def test_quantity_that_is_no_whole_number_is_refused(cell):
    with pytest.raises(CellError):
        read_quantity(cell)


@pytest.mark.parametrize(
    ("cell", "share"),
    [
        ("half", "0.5"),
        ("½", "0.5"),
        ("3/4", "0.75"),
        ("50%", "0.5"),
        ("50", "0.5"),
        ("0.25", "0.25"),
        ("Complete", "1"),
        ("2/3", "0.667"),
    ],
)
def test_share_is_read_as_groups_write_it(cell, share):
    assert read_share(cell) == Decimal(share)


@pytest.mark.parametrize("cell", ["0", "-1/2", "150", "1/0", "most"])
def test_share_that_cannot_be_is_refused(cell):
    with pytest.raises(CellError):
        read_share(cell)


@pytest.mark.parametrize(
    ("cell", "usability"),
    [
        ("Needs  repair", "repair"),
        ("good", "ready"),
        ("pattern only", "pattern"),
        ("scrap", "unusable"),
        ("?", "unassessed"),
        ("rusty", None),
    ],
)
def test_usability_is_read_from_common_words(cell, usability):
    assert read_usability(cell) == usability


@pytest.mark.parametrize(
    ("cell", "heading", "mass"),
    [
        ("12 kg", "Weight", "12"),
        ("1 lb", "Weight", "0.454"),
        ("500 g", "Weight", "0.5"),
        ("10", "Weight lbs", "4.536"),
        ("12", "Weight", None),
        ("heavy", "Weight (kg)", None),
    ],
)
def test_mass_needs_a_unit_in_the_cell_or_the_heading(cell, heading, mass):
    assert read_mass(cell, heading) == (mass and Decimal(mass))


def test_mass_of_nothing_is_refused():
    with pytest.raises(CellError, match="“0 kg” cannot be the mass of a part"):
        read_mass("0 kg", "Mass")


def test_tag_is_brought_to_its_printed_form():
    assert read_tag("k7q2m9v") == "K7Q-2M9V"


def test_tag_with_a_wrong_character_is_refused():
    with pytest.raises(CellError, match="two have changed places"):
        read_tag("K7Q-29MV")


def test_measurement_takes_the_unit_that_was_chosen():
    assert read_measurement("14", "Bore", "in").mm == Decimal("355.6")


@pytest.mark.parametrize("cell", ["14", "5 x 9", "3 5/4 in", "0 in"])
def test_measurement_that_is_no_length_names_its_column(cell):
    with pytest.raises(CellError, match="Bore: "):
        read_measurement(cell, "Bore", "")


def test_marks_are_parted_and_stripped_of_quotation_marks():
    assert read_marks("T.I. 2?7; “E 14” ;\n; PAT'D") == ("T.I. 2?7", "E 14", "PAT'D")
