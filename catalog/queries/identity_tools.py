"""With which instrument of the shop each characteristic is best measured."""

import math
from collections.abc import Iterable
from statistics import median

from catalog.models import Instrument
from catalog.reckoning.identity import STEEL_RULE, Hypothesis, Tool

# What each size is measured with where nobody says otherwise: common practice, no source.
BY_SIZE = ((150.0, "vernier-caliper"), (1000.0, "rule-32"), (math.inf, "tape"))


def instruments_for(
    hypotheses: Iterable[Hypothesis],
) -> dict[str, tuple[Tool, Instrument | None]]:
    """Return for each characteristic the tool for its usual size, by the characteristic's name."""
    sizes: dict[str, list[float]] = {}
    for hypothesis in hypotheses:
        for name, limits in hypothesis.characteristics.items():
            ends = (limits.lower, limits.upper) if limits else ()
            sizes.setdefault(name, []).extend(end for end in ends if end is not None)
    shop = {row.slug: row for row in Instrument.objects.kept()}
    return {name: _tool(median(ends) if ends else 100.0, shop) for name, ends in sizes.items()}


def _tool(size: float, shop: dict[str, Instrument]) -> tuple[Tool, Instrument | None]:
    wanted = next(slug for most, slug in BY_SIZE if size <= most)
    row = shop.get(wanted)
    if row is None:
        return STEEL_RULE, None
    return Tool(row.name, float(row.uncertainty_mm)), row
