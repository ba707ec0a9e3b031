"""Verdicts: required and advisory, as new and as worn, unmeasured, too coarse, and tried."""

import pytest

from catalog.reckoning.conformance import (
    Fit,
    LimitsError,
    Requirement,
    Trial,
    verdict,
)
from catalog.reckoning.uncertainty import Measured

DIAMETER = Requirement("journal diameter", 95.0, 95.5, worn_lower=92.0, source="drawing 12")
LENGTH = Requirement("journal length", 177.0, 178.5)
COLLAR = Requirement("collar", 10.0, 12.0, is_required=False)
NEW, WORN, SMALL = Measured(95.25, 0.05), Measured(93.2, 0.1), Measured(76.2, 0.1)
LONG = Measured(177.8, 0.1)
WORN_ONLY = " is within the limits of wear, not those as new."


@pytest.mark.parametrize(
    ("findings", "fit", "is_worn", "missing"),
    [
        ([(DIAMETER, NEW), (LENGTH, LONG)], Fit.FITS, False, ()),
        ([(DIAMETER, WORN), (LENGTH, LONG)], Fit.FITS, True, ()),
        ([(DIAMETER, Measured(95.5, 0.1))], Fit.DOUBTFUL, False, ()),
        ([(DIAMETER, SMALL)], Fit.MISFIT, False, ()),
        ([(DIAMETER, NEW), (LENGTH, None)], Fit.UNKNOWN, False, ("journal length",)),
        ([(DIAMETER, None), (LENGTH, None)], Fit.UNKNOWN, False, (DIAMETER.name, LENGTH.name)),
        ([(DIAMETER, SMALL), (LENGTH, None)], Fit.MISFIT, False, ("journal length",)),
        ([(DIAMETER, NEW), (COLLAR, None)], Fit.FITS, False, ()),
        ([(DIAMETER, NEW), (COLLAR, SMALL)], Fit.FITS, False, ()),
        ([(COLLAR, Measured(11.0, 0.1))], Fit.UNKNOWN, False, ()),
        ([], Fit.UNKNOWN, False, ()),
    ],
)
def test_the_required_characteristics_decide(findings, fit, is_worn, missing):
    answer = verdict(findings)

    assert (answer.fit, answer.is_worn, answer.missing) == (fit, is_worn, missing)


@pytest.mark.parametrize(
    ("findings", "sentence"),
    [
        ([(DIAMETER, NEW)], "Fits: journal diameter is within the limits."),
        (
            [(DIAMETER, NEW), (LENGTH, LONG)],
            "Fits: journal diameter and journal length are within the limits.",
        ),
        ([(DIAMETER, WORN)], "Fits as worn: journal diameter" + WORN_ONLY),
        (
            [(LENGTH, LONG), (DIAMETER, SMALL)],
            "Does not fit: journal diameter is 76.2 ± 0.1 mm; allowed is 92 to 95.5 mm.",
        ),
        (
            [(Requirement("bore over pin", 0.0, 4.7625), Measured(-9.25, 0.47))],
            "Does not fit: bore over pin is −9.25 ± 0.47 mm, so there is no room; "
            "allowed is 0 to 4.76 mm.",
        ),
        (
            [(Requirement("bore", lower=60.0), Measured(60.0, 0.2))],
            "Doubtful: bore is 60.0 ± 0.2 mm; allowed is at least 60 mm.",
        ),
        (
            [(Requirement("bore", upper=60.0), Measured(62.0, 0.2))],
            "Does not fit: bore is 62.0 ± 0.2 mm; allowed is at most 60 mm.",
        ),
        (
            [(DIAMETER, None), (LENGTH, None)],
            "Unknown: measure journal diameter and journal length.",
        ),
        ([], "Unknown: nothing is required."),
    ],
)
def test_a_verdict_says_its_reason(findings, sentence):
    assert verdict(findings).sentence == sentence


@pytest.mark.parametrize(
    ("trial", "fit", "sentence"),
    [
        (Trial.WENT, Fit.FITS, "Fits: it was tried and went."),
        (Trial.WENT_WITH_WORK, Fit.FITS, "Fits: it was tried and went with work."),
        (Trial.DID_NOT_GO, Fit.MISFIT, "Does not fit: it was tried and did not go."),
    ],
)
@pytest.mark.parametrize("measured", [NEW, SMALL, None])
def test_a_trial_outranks_arithmetic(trial, fit, sentence, measured):
    answer = verdict([(DIAMETER, measured)], trial=trial)

    assert (answer.fit, answer.is_worn, answer.sentence) == (fit, False, sentence)


def test_each_characteristic_keeps_its_numbers_its_source_and_its_note():
    lines = verdict([(DIAMETER, WORN), (LENGTH, None), (COLLAR, SMALL)]).characteristics

    assert [line.fit for line in lines] == [Fit.FITS, Fit.UNKNOWN, Fit.MISFIT]
    assert [line.note for line in lines] == [
        "Within the limits of wear, not those as new.",
        "Not measured.",
        "",
    ]
    assert (lines[0].measured, lines[0].requirement.source) == (WORN, "drawing 12")
    assert lines[0].as_new < 1e-50
    assert lines[0].as_worn > 0.999


def test_the_joint_probabilities_are_those_of_the_required_ones_measured():
    lines = [(DIAMETER, Measured(95.4, 0.1)), (LENGTH, LONG), (COLLAR, SMALL)]

    answer = verdict(lines)

    first, second, _ = answer.characteristics
    assert answer.as_worn.product == first.as_worn * second.as_worn
    assert answer.as_new.upper_bound == min(first.as_new, second.as_new)


def test_several_doubtful_characteristics_together_do_not_fit():
    half = [(Requirement(name, lower=10.0), Measured(10.0, 1.0)) for name in "abcde"]

    assert verdict(half[:4]).fit == Fit.DOUBTFUL
    assert verdict(half).fit == Fit.MISFIT


def test_a_guess_by_eye_neither_proves_nor_excludes_a_close_fit():
    answer = verdict([(DIAMETER, Measured(94.0, 70.0))])

    assert (answer.fit, answer.as_worn.product < 0.05) == (Fit.DOUBTFUL, True)
    assert answer.characteristics[0].note == (
        "The measurement is too coarse: even a perfect piece could not be shown to fit. "
        "Use a finer instrument."
    )


def test_a_guess_by_eye_far_enough_off_excludes():
    assert verdict([(DIAMETER, Measured(300.0, 70.0))]).fit == Fit.MISFIT


@pytest.mark.parametrize("limits", [{}, {"lower": 95.0, "upper": 95.0}])
def test_limits_without_tolerance_leave_the_answer_unknown(limits):
    answer = verdict([(Requirement("bore", **limits), NEW)])

    assert (answer.fit, answer.missing) == (Fit.UNKNOWN, ("bore",))
    assert answer.characteristics[0].note == (
        "No tolerance is recorded: add a lower and an upper limit that differ."
    )


def test_limits_of_wear_alone_give_a_fit_as_worn():
    answer = verdict([(Requirement("journal diameter", worn_lower=92.0), WORN)])

    assert (answer.fit, answer.is_worn, answer.as_new) == (Fit.FITS, True, None)
    assert answer.characteristics[0].is_worn


def test_a_limit_of_wear_serves_where_one_as_new_is_missing():
    requirement = Requirement("journal diameter", upper=95.5, worn_lower=92.0)

    assert requirement.as_new == (92.0, 95.5)
    assert verdict([(requirement, Measured(90.0, 0.1))]).fit == Fit.MISFIT


def test_a_worn_and_a_new_characteristic_together_fit_as_worn():
    bore = Requirement("bore", 96.0, 96.5, worn_upper=98.0)

    answer = verdict([(DIAMETER, NEW), (bore, Measured(97.0, 0.1))])

    assert [line.is_worn for line in answer.characteristics] == [False, True]
    assert answer.sentence == "Fits as worn: bore" + WORN_ONLY


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        ({"lower": 96.0, "upper": 95.0}, "crossed"),
        ({"lower": float("nan")}, "plain number"),
        ({"worn_upper": float("inf")}, "plain number"),
        ({"worn_lower": 99.0, "worn_upper": 95.0}, "crossed"),
        ({"lower": 92.0, "upper": 95.0, "worn_lower": 93.0}, "inside its limits as new"),
        ({"lower": 92.0, "upper": 95.0, "worn_upper": 94.0}, "inside its limits as new"),
    ],
)
def test_impossible_limits_are_refused_in_words(limits, words):
    with pytest.raises(LimitsError, match=words):
        Requirement("bore", **limits)
