"""Other names typed in one line."""

import pytest
from django.core.exceptions import ValidationError

from catalog.forms.alias_lines import read_alias_line, write_alias_line
from catalog.models import ComponentAlias


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("", []),
        (" , ", []),
        ("axlebox (UK), oil box", [("axlebox", "uk"), ("oil box", "other")]),
        ("tire(us),tyre ( British )", [("tire", "us"), ("tyre", "uk")]),
        ("oil  box (works), Oil box", [("oil box", "works")]),
    ],
)
def test_alias_line_is_read_name_by_name(line, names):
    assert read_alias_line(line) == names


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("axlebox (french)", "“french” is not a usage known here"),
        ("(UK)", "is not one name"),
        ("axlebox (UK) oil box", "is not one name"),
        ("a" * 81, "too long for a name"),
    ],
)
def test_alias_line_is_refused_in_words(line, words):
    with pytest.raises(ValidationError, match=words):
        read_alias_line(line)


def test_alias_line_is_written_as_it_is_typed():
    aliases = [ComponentAlias(name="axlebox", usage="uk"), ComponentAlias(name="oil box")]

    assert write_alias_line(aliases) == "axlebox (UK), oil box"
    assert read_alias_line(write_alias_line(aliases)) == [("axlebox", "uk"), ("oil box", "other")]
