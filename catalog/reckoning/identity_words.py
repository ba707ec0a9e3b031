"""Probabilities, odds and names of hypotheses, as they are said across the bench."""

import math

from catalog.reckoning.identity_evidence import SOMETHING_ELSE_KEY, Hypothesis

_CONFIDENCE = ((0.95, "Almost certainly"), (0.75, "Probably"), (0.5, "More likely than not"))
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
