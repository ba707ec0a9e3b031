"""Provenance texts against the punctuation published for museums.

Source: N. H. Yeide, K. Akinsha and A. L. Walsh, *The AAM Guide to Provenance Research* (American
Association of Museums, 2001), as quoted by the Carnegie Museum of Art and the Philadelphia Museum
of Art in their notes on reading provenance: listed in chronological order, beginning with the
earliest known owner; “possibly” and “probably” for what is uncertain; dealers in parentheses; a
semicolon where it passed directly between two owners, a period where a direct transfer did not
occur or is not known to have occurred. The owners here are invented.
"""

import pytest

from catalog.reckoning.chains import chain
from catalog.reckoning.periods import ProvenanceEvent
from catalog.reckoning.provenance_texts import provenance_text


def passage(key, giver, taker, **more):
    return ProvenanceEvent(
        key, None, None, kind="sold", from_party=giver, to_party=taker, when=key, **more
    )


@pytest.mark.parametrize(
    ("events", "text"),
    [
        ([passage("1900", "", "Ames"), passage("1910", "Ames", "Bell")], "Ames, bought 1900; Bell, bought 1910."),
        ([passage("1900", "", "Ames"), passage("1910", "", "Bell")], "Ames, bought 1900. Bell, bought 1910."),
        ([passage("1900", "", "Ames"), passage("1910", "Cole", "Bell")], "Ames, bought 1900. Cole; Bell, bought 1910."),
        ([passage("1900", "", "Ames"), passage("1905", "Ames", ""), passage("1910", "", "Bell")], "Ames, bought 1900, until 1905. Bell, bought 1910."),
        ([passage("1900", "Ames", "Bell", certainty="supposed")], "Possibly Ames; possibly Bell, bought 1900."),
        ([passage("1900", "", "Ames"), passage("1910", "Ames", "Bell", certainty="probable")], "Ames, bought 1900; probably Bell, bought 1910."),
    ],
)  # fmt: skip
def test_marks_and_words_say_how_it_passed(events, text):
    assert provenance_text(chain(events)) == text


def test_dealers_stand_in_parentheses():
    events = [passage("1900", "Ames", "Bell"), passage("1901", "Bell", "Cole")]

    assert (
        provenance_text(chain(events), dealers={"Bell"})
        == "Ames; (Bell), bought 1900; Cole, bought 1901."
    )
