"""What to mind when a new casting is taken from an old one."""

from decimal import Decimal

import pytest

from catalog.reckoning.casting_notes import allowance_note, metal_named
from catalog.reckoning.shrinkage import CONTRACTIONS, Metal


@pytest.mark.parametrize(
    ("words", "metal"),
    [
        ("cast iron", Metal.GRAY_IRON),
        ("Cast steel", Metal.STEEL),
        ("brass", Metal.BRASS),
        ("gunmetal", Metal.BRONZE),
        ("aluminium alloy", Metal.ALUMINUM),
        ("yellow pine", None),
        ("", None),
    ],
)
def test_material_names_a_metal(words, metal):
    assert metal_named(words) == metal


@pytest.mark.parametrize("metal", Metal)
def test_allowance_is_that_of_the_table(metal):
    note = allowance_note(metal.value)

    assert f"{CONTRACTIONS[metal].usual * 12} in a foot for {metal.value}" in note


def test_part_of_a_casting_must_be_added_to():
    assert allowance_note("cast iron", Decimal("0.5")).endswith("must be added to the pattern.")
    assert allowance_note("cast iron").endswith("will do.")
