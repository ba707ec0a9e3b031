"""Limits of a size, as a verdict says them across the bench."""

from catalog.reckoning.length_texts import plain_decimal, rounded


def limits_in_words(lower: float | None, upper: float | None) -> str:
    """Return limits in mm to the hundredth, which is finer than a shop measures.

    >>> limits_in_words(201.6125, 204.7875), limits_in_words(None, 4.7625)
    ('201.61 to 204.79 mm', 'at most 4.76 mm')
    """
    if lower is None:
        return "any size" if upper is None else f"at most {_size(upper)} mm"
    if upper is None:
        return f"at least {_size(lower)} mm"
    return f"{_size(lower)} to {_size(upper)} mm"


def _size(size_mm: float) -> str:
    # Very small and very large ones keep four figures, so that no two run together.
    if size_mm and not 0.1 <= abs(size_mm) < 1e6:
        return f"{size_mm:.4g}"
    return plain_decimal(rounded(size_mm, 2))
