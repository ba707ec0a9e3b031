"""Probabilities, odds and names of hypotheses, as they are said across the bench."""

import math
from collections.abc import Sequence
from dataclasses import replace

from catalog.reckoning.identity_evidence import SOMETHING_ELSE_KEY, Hypothesis

_CONFIDENCE = ((0.95, "Almost certainly"), (0.75, "Probably"), (0.5, "More likely than not"))
# Below this chance the likeliest is no answer yet; from this one on a sentence is sure of the
# component; what is less likely than one in a hundred is not counted (common practice, no source).
STANDS_OUT, SURE, COUNTS = 0.2, 0.75, 0.01
_EVEN = math.log(1.05)
_TENS = math.log(9.95)
_MILLION = math.log(1e6)


def with_article(hypothesis: Hypothesis) -> str:
    """Return the name of a hypothesis, ready for a sentence.

    >>> with_article(Hypothesis("k", "eccentric strap"))
    'an eccentric strap'
    """
    if hypothesis.key == SOMETHING_ELSE_KEY:
        return hypothesis.name
    article = "an" if hypothesis.name[:1].lower() in set("aeiou") else "a"
    return f"{article} {hypothesis.name}"


def percent(probability: float) -> str:
    """Return a probability as a percentage that never claims certainty.

    >>> percent(0.62), percent(0.9999), percent(1e-30)
    ('62 %', 'over 99 %', 'under 1 %')
    """
    if probability < 0.01:
        return "under 1 %"
    if probability > 0.99:
        return "over 99 %"
    return f"{100.0 * probability:.0f} %"


def confidence_in_words(probability: float) -> str:
    """Return how a sentence about the likeliest hypothesis begins.

    >>> confidence_in_words(0.8), confidence_in_words(0.3)
    ('Probably', 'Undecided, foremost')
    """
    words = (words for least, words in _CONFIDENCE if probability >= least)
    return next(words, "Undecided, foremost")


def ranking_in_words(ranked: Sequence[tuple[Hypothesis, float]]) -> str:
    """Say what a piece is likeliest to be: ``ranked`` is every hypothesis, likeliest first.

    Where none stands out it says so, and where the component is surer than its class the
    component comes first.

    >>> hinges = [Hypothesis(key, f"class {key} hinge", "hinge", key) for key in "EB"]
    >>> ranking_in_words([(hinges[0], 0.59), (hinges[1], 0.39), (Hypothesis("k", "box"), 0.02)])
    'Almost certainly a hinge (98 %): class E hinge (59 %) or class B hinge (39 %).'
    """
    first, chance = ranked[0]
    if len(ranked) == 1:
        return f"{confidence_in_words(chance)} {with_article(first)} ({percent(chance)})."
    if chance < STANDS_OUT:
        count = sum(probability >= COUNTS for _, probability in ranked)
        leader = f"{with_article(first)} leads with {percent(chance)}"
        return f"It cannot be told yet: of {count} candidates none stands out; {leader}."
    alike = [one for one in ranked if first.component and one[0].component == first.component]
    total = math.fsum(probability for _, probability in alike)
    if chance < SURE <= total:
        classes = [f"{one.name} ({percent(share)})" for one, share in alike if share >= COUNTS]
        named = with_article(replace(first, name=first.component))
        lead = f"{confidence_in_words(total)} {named} ({percent(total)})"
        return f"{lead}: {' or '.join(classes)}."
    second, next_chance = ranked[1]
    return (
        f"{confidence_in_words(chance)} {with_article(first)} ({percent(chance)}); "
        f"next {with_article(second)} ({percent(next_chance)})."
    )


def times_in_words(log_times: float) -> str:
    """Return odds from their logarithm, zero or more, or nothing where they are about even.

    >>> times_in_words(math.log(12.3)), times_in_words(math.log(1.5)), times_in_words(900.0)
    ('12 times', '1.5 times', 'over a million times')
    """
    if log_times < _EVEN:
        return ""
    if log_times > _MILLION:
        return "over a million times"
    if log_times > _TENS:
        return f"{math.exp(log_times):,.0f} times"
    return f"{math.exp(log_times):.2g} times"


def range_in_words(least: float | None, greatest: float | None) -> str:
    """Return a range of readings to four figures; an end that is ``None`` is open.

    >>> range_in_words(63.4567, 65.0), range_in_words(None, 4999.6), range_in_words(None, None)
    ('63.46 to 65 mm', '5000 mm or less', 'any size')
    """
    if least is None:
        return "any size" if greatest is None else f"{_size(greatest)} mm or less"
    if greatest is None:
        return f"{_size(least)} mm or more"
    return f"{_size(least)} to {_size(greatest)} mm"


def _size(size_mm: float) -> str:
    # Four figures, without a power of ten where it can be avoided.
    return f"{size_mm:.0f}" if 1e3 <= size_mm < 1e9 else f"{size_mm:.4g}"
