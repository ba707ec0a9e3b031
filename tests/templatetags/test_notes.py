"""Signs of numbered notes."""

from catalog.queries.provenance import LineEntry
from catalog.templatetags.notes import noted, noted_line


def test_numbers_are_raised_and_kept_apart_from_a_year():
    assert noted((1, 2)) == "\u202f<sup>1, 2</sup>"
    assert noted(()) == ""


def test_line_sets_notes_before_the_mark_and_escapes_names():
    entries = [LineEntry("Pellow & Sons, bought 1929", ";", (3,)), LineEntry("<Mill>", ".", ())]

    line = noted_line(entries)

    assert line == "Pellow &amp; Sons, bought 1929\u202f<sup>3</sup>; &lt;Mill&gt;."
