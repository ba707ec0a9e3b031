"""What a piece may be: refusals, words, and evidence that tells nothing."""

import math

import pytest

from catalog.reckoning.conformance import Requirement
from catalog.reckoning.identity import (
    SOMETHING_ELSE_KEY,
    AbsentEvidence,
    FactorEvidence,
    Hypothesis,
    IdentityError,
    MarkEvidence,
    MeasuredEvidence,
    Tool,
    came_off,
    next_measurement,
    same_lot,
    weigh,
)
from catalog.reckoning.limits import Limits
from catalog.reckoning.uncertainty import Measured

BOX = Hypothesis(
    "e-box", "class E journal box", "journal box", "E", 8.0, {"bore": Limits(63.5, 66.0)}
)
AXLE_BOX = Hypothesis(
    "k-box", "class K axle box", "axle box", "K", 4.0, {"bore": Limits(65.0, 68.0)}
)
HINGE = Hypothesis(
    "hinge", "class E strap hinge", "hinge", "E", 2.0, {"eye": Limits(15.0, 17.0), "width": None}
)
ALL = [BOX, AXLE_BOX, HINGE]
BORE = MeasuredEvidence("bore", Measured(64.1, 0.5))


def probabilities(ranking):
    return {opinion.hypothesis.key: opinion.probability for opinion in ranking.opinions}


def test_weighing_says_what_is_likeliest_and_what_comes_next():
    ranking = weigh(ALL, [BORE])

    assert ranking.in_words == (
        "Almost certainly a class E journal box (98 %); next a class K axle box (2 %)."
    )


def test_every_factor_is_kept_and_adds_up_to_the_ranking():
    ranking = weigh(ALL, [BORE, came_off("wagon 31", "E", ALL)])
    first, second = ranking.opinions[:2]

    assert [factor.statement for factor in first.factors] == [
        "before any evidence",
        "bore 64.1 ± 0.5 mm",
        "came off wagon 31",
    ]
    assert first.factors[1].basis == "63.5 to 66 mm"
    assert math.fsum(factor.log_times for factor in first.factors) == pytest.approx(
        first.log_probability - second.log_probability
    )


def test_a_factor_is_told_as_odds_against_the_rival():
    words = [factor.in_words for factor in weigh(ALL, [BORE]).leader.factors]

    assert words == [
        "before any evidence: 2 times likelier for a class E journal box than for a class K axle box",
        "bore 64.1 ± 0.5 mm: 30 times likelier for a class E journal box than for a class K axle box",
    ]


def test_a_factor_against_the_leader_is_told_as_less_likely():
    last = weigh(ALL, [BORE]).opinions[-1]

    assert last.factors[1].in_words == (
        "bore 64.1 ± 0.5 mm: 7,836 times less likely for a class E strap hinge "
        "than for a class E journal box"
    )
    assert last.factors[1].basis == "has no such feature"


def test_evidence_alike_for_two_is_told_as_even():
    ranking = weigh(ALL, [BORE, FactorEvidence("painted gray", {"e-box": 2.0, "k-box": 2.0})])

    assert ranking.leader.factors[2].in_words == (
        "painted gray: as likely for a class E journal box as for a class K axle box"
    )


def test_without_hypotheses_it_is_something_else():
    ranking = weigh([], [BORE])

    assert ranking.in_words == "Almost certainly something else (over 99 %)."
    assert ranking.leader.factors[0].in_words == (
        "before any evidence: nothing to compare something else with"
    )
    assert ranking.remarks == (
        "No component here has a bore. It goes by another name, or the piece is something else.",
    )
    assert next_measurement([], [], tools={}) == ()


def test_a_lone_hypothesis_still_competes_with_something_else():
    near = weigh([BOX], [BORE])
    far = weigh([BOX], [MeasuredEvidence("bore", Measured(80.0, 0.5))])

    assert near.leader.hypothesis == BOX
    assert far.leader.hypothesis.key == SOMETHING_ELSE_KEY


def test_a_feature_that_nobody_has_is_answered_in_words_and_changes_nothing():
    odd = MeasuredEvidence("thread pitch", Measured(3.0, 0.1))

    ranking = weigh(ALL, [odd, BORE])

    assert ranking.opinions == weigh(ALL, [BORE]).opinions
    assert ranking.remarks == (
        "No component here has a thread pitch. It goes by another name, or the piece is "
        "something else.",
    )


@pytest.mark.parametrize(
    "useless",
    [
        FactorEvidence("found on a Tuesday", {}),
        FactorEvidence("found in the shed", {}, otherwise=7.0),
        MarkEvidence("mark ???", {"e-box": 1.0, "k-box": 1.0, "hinge": 1.0}),
    ],
)
def test_useless_evidence_changes_no_probability(useless):
    assert probabilities(weigh(ALL, [BORE, useless])) == pytest.approx(
        probabilities(weigh(ALL, [BORE])), rel=1e-12
    )


def test_a_measurement_on_which_all_agree_changes_no_probability():
    alike = [
        Hypothesis(key, key, characteristics={"length": None, "bore": limits})
        for key, limits in (("a", Limits(60.0, 62.0)), ("b", Limits(70.0, 72.0)))
    ]
    length = MeasuredEvidence("length", Measured(200.0, 0.5))

    assert probabilities(weigh(alike, [length])) == pytest.approx(probabilities(weigh(alike, [])))
    [best, useless] = next_measurement(alike, [], tools={})
    assert (best.characteristic, useless.characteristic) == ("bore", "length")
    assert useless.information_bits == pytest.approx(0.0, abs=1e-12)
    assert (
        useless.in_words == "Measure the length with the steel rule: it would tell next to nothing."
    )


def test_a_worn_journal_is_matched_by_its_limits_of_wear_not_by_the_nearest_size():
    worn = Requirement("journal", lower=63.3, upper=63.5, worn_lower=57.0)
    as_new = Hypothesis("c", "class C axle", characteristics={"journal": Limits(56.0, 56.2)})
    as_worn = Hypothesis("e", "class E axle", characteristics={"journal": Limits(*worn.as_worn)})
    journal = MeasuredEvidence("journal", Measured(58.7, 0.3))

    assert weigh([as_new, as_worn], [journal]).leader.hypothesis == as_worn


def test_came_off_favors_the_class_of_the_vehicle():
    before, after = (probabilities(weigh(ALL, e)) for e in ([], [came_off("wagon 31", "E", ALL)]))

    assert after["e-box"] / after["k-box"] == pytest.approx(
        20.0 * before["e-box"] / before["k-box"]
    )


def test_same_lot_favors_the_classes_found_in_it():
    evidence = same_lot("the pallet", ["K", "B"], ALL, factor=4.0)

    assert evidence.factors == {"k-box": 4.0}
    assert evidence.statement == "came with identified parts in the pallet"


def test_a_feature_seen_to_be_missing_tells_against_those_that_have_it():
    before, after = (probabilities(weigh(ALL, e)) for e in ([], [AbsentEvidence("bore")]))

    assert after["hinge"] / after["e-box"] == pytest.approx(
        50.0 * before["hinge"] / before["e-box"]
    )
    left = [one.characteristic for one in next_measurement(ALL, [AbsentEvidence("bore")], tools={})]
    assert sorted(left) == ["eye", "width"]


def test_next_measurement_names_the_tool_and_what_it_is_worth():
    best = next_measurement(ALL[:2], [], tools={"bore": Tool("inside caliper", 0.05)})[0]

    assert best.in_words == (
        "Measure the bore with the inside caliper: it should remove 75 % of the doubt."
    )


def test_next_measurement_tells_what_each_outcome_would_mean():
    best = next_measurement(ALL[:2], [], tools={"bore": Tool("inside caliper", 0.05)})[0]

    assert [outcome.in_words for outcome in best.outcomes] == [
        "63.34 to 66.01 mm (chance 70 %): a class E journal box leads (85 %)",
        "66.01 to 68.14 mm (chance 20 %): a class K axle box leads (98 %)",
        "any other size (chance 10 %): something else leads (over 99 %)",
    ]


def test_the_outcomes_foretell_the_leader_of_the_weighing():
    for outcome in next_measurement(ALL[:2], [], tools={"bore": Tool("caliper", 0.05)})[0].outcomes:
        for least, greatest in outcome.ranges:
            reading = 0.5 * ((least or 5.0) + (greatest or 5000.0))
            ranking = weigh(ALL[:2], [MeasuredEvidence("bore", Measured(reading, 0.05))])

            assert ranking.leader.hypothesis == outcome.leader


def test_looking_for_a_feature_is_an_outcome_too():
    looking = next_measurement([BOX, HINGE], [], tools={})

    absent = {s.characteristic: [o.leader.key for o in s.outcomes if o.is_absent] for s in looking}
    assert absent == {"bore": ["hinge"], "eye": ["e-box"], "width": ["e-box"]}


def test_a_measured_characteristic_is_not_suggested_again():
    assert [one.characteristic for one in next_measurement(ALL[:2], [BORE], tools={})] == []


@pytest.mark.parametrize("size", [1e-9, 1e-3, 1e3, 1e9])
@pytest.mark.parametrize("uncertainty", [1e-9, 1.0, 1e9])
def test_extreme_sizes_and_tools_give_finite_information(size, uncertainty):
    limits = Limits(size, size), Limits(size, 2.0 * size), Limits(None, size), Limits(size, None)
    row = [Hypothesis(str(i), "box", characteristics={"bore": one}) for i, one in enumerate(limits)]

    [best] = next_measurement(row, [], tools={"bore": Tool("tool", uncertainty)})

    assert 0.0 <= best.information_bits <= best.doubt_bits
    assert math.fsum(o.probability for o in best.outcomes) == pytest.approx(1.0, abs=0.03)


@pytest.mark.parametrize(
    ("question", "words"),
    [
        (
            lambda: Hypothesis("a", "box", characteristics={"bore": Limits(66.0, 65.0)}),
            "The limits for the bore of box are crossed: 66 is above 65 mm.",
        ),
        (
            lambda: Hypothesis("a", "box", characteristics={"bore": Limits(None, math.nan)}),
            "The limits for the bore of box are no sizes.",
        ),
        (
            lambda: Hypothesis("a", "box", characteristics={"bore": Limits(None, -1.0)}),
            "The bore of box cannot be limited to -1 mm or less.",
        ),
        (
            lambda: Hypothesis("a", "box", prior_weight=0.0),
            "The weight of box is 0; it must be more than nothing.",
        ),
        (
            lambda: MeasuredEvidence("bore", Measured(-3.0, 0.1)),
            "The bore is given as -3 ± 0.1 mm; a size lies between 1e-12 and 1e+12 mm.",
        ),
        (
            lambda: Tool("rule", 0.0),
            "The uncertainty of the rule is 0 mm; it must be more than nothing.",
        ),
        (
            lambda: FactorEvidence("blue", {"a": 0.0}),
            "blue: a factor of 0 would make something certain; state a number above zero, however small.",
        ),
        (lambda: weigh([BOX, BOX], []), "The hypothesis e-box is given twice."),
        (
            lambda: weigh([BOX], [BORE, BORE]),
            "The bore is given more than once; combine repeated measurements first.",
        ),
        (
            lambda: weigh([BOX], [FactorEvidence("blue", {"b-box": 2.0})]),
            "blue: there is no hypothesis b-box.",
        ),
        (
            lambda: weigh([BOX], [], something_else_share=1.0),
            "The share of something else is 1; it must lie between 0 and 1, "
            "for no list of components is complete.",
        ),
    ],
)
def test_bad_questions_are_refused_in_words(question, words):
    with pytest.raises(IdentityError) as refusal:
        question()

    assert str(refusal.value) == words
