"""Owners over the years, drawn and in words."""

import datetime as dt

from django.template import Context, Template

from catalog.reckoning.chains import chain
from catalog.reckoning.periods import ProvenanceEvent
from catalog.templatetags.timeline import timeline_chart

TODAY = dt.date(2026, 1, 1)


def year(number, key, **told):
    days = (dt.date(number, 1, 1), dt.date(number, 12, 31))
    return ProvenanceEvent(key, *days, when=str(number), **told)


def rows(*events):
    return timeline_chart(chain(events), today=TODAY)["rows"]


def test_owner_who_has_it_still_reaches_to_this_day():
    (row,) = rows(year(1926, "b", kind="built", to_party="Tramway"))

    assert row.label == "Tramway"
    assert row.words == "owner, since 1926, to this day as far as is known; documented"
    assert [(one.look, one.x) for one in row.stretches] == [("in", "2.80%"), ("solid", "3.74%")]


def test_uncertain_ends_fade_and_a_gap_is_hatched():
    built = year(1900, "b", kind="built", to_party="Tramway")
    sold = year(1950, "s", kind="sold", from_party="Mill", to_party="Town")

    found = rows(built, sold)

    assert [(row.label, [one.look for one in row.stretches]) for row in found] == [
        ("Tramway", ["in", "out"]),
        ("not known", ["gap"]),
        ("Mill", ["in", "out"]),
        ("Town", ["in", "solid"]),
    ]


def test_events_are_ticked_and_filled_where_a_source_stands_behind_them():
    built = year(1926, "b", kind="built", to_party="Tramway", source="plate")
    seen = year(1976, "l", to_party="Tramway")

    (row,) = rows(built, seen)

    assert [tick.is_cited for tick in row.ticks] == [True, False]


def test_years_are_labeled_at_round_steps():
    built = year(1899, "b", kind="built", to_party="Tramway")

    found = timeline_chart(chain([built]), today=TODAY)

    assert [label for _, label in found["years"]] == list(range(1900, 2021, 20))


def test_chain_without_any_day_is_not_drawn():
    unknown = ProvenanceEvent("b", None, None, kind="built", to_party="Tramway")

    assert timeline_chart(chain([unknown]), today=TODAY) == {"rows": ()}


def test_open_bound_fades_towards_what_is_not_known():
    built = ProvenanceEvent("b", None, dt.date(1900, 12, 31), kind="built", to_party="A")
    sold = year(1950, "s", kind="sold", from_party="A", to_party="B")

    first, _ = rows(built, sold)

    assert [one.look for one in first.stretches] == ["in", "solid", "out"]


def test_drawing_is_hidden_from_readers_and_told_in_words():
    built = year(1926, "b", kind="built", to_party="Tramway")
    drawn = Template("{% timeline_chart chain %}").render(Context({"chain": chain([built])}))

    assert drawn.count("<svg") == drawn.count('aria-hidden="true"') + drawn.count("overflow=")
    assert "owner, since 1926" in drawn
