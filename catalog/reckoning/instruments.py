"""The instruments of a workshop, each with the doubt to start from until somebody knows better."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from catalog.reckoning.length_texts import MM_PER_INCH
from catalog.reckoning.spreads import rectangular, resolution_uncertainty, root_sum_square

_INCH = float(MM_PER_INCH)


@dataclass(frozen=True, slots=True)
class Instrument:
    """A way to measure, its finest division, and the standard uncertainty to start from."""

    code: str
    name: str
    resolution_mm: float
    uncertainty_mm: float
    note: str
    caution: str = ""


def _steel_rule(divisions: int) -> Instrument:
    step = _INCH / divisions
    return Instrument(
        f"rule-{divisions}",
        f"Steel rule, 1/{divisions} in",
        step,
        resolution_uncertainty(step),
        "Read to the nearest division, one end against a shoulder. Where both ends are set by eye, "
        "take the next coarser rule. Common practice, no source.",
    )


# Every starting value below is common practice, no source; people can change it for a reading.
_ALL = (
    _steel_rule(64),
    _steel_rule(32),
    _steel_rule(16),
    Instrument(
        "tape",
        "Tape",
        _INCH / 16,
        rectangular(_INCH / 16),
        "Within 1/16 in for the hook, the sag and the reading. Common practice, no source.",
    ),
    Instrument(
        "vernier-caliper",
        "Vernier caliper, 0.02 mm",
        0.02,
        rectangular(0.05),
        "Within 0.05 mm for jaws, zero and feel on a cleaned face. Common practice, no source.",
    ),
    Instrument(
        "micrometer",
        "Micrometer, 0.001 in",
        _INCH / 1000,
        rectangular(_INCH / 1000),
        "Within 0.001 in for zero and feel on a cleaned face. Common practice, no source.",
    ),
    Instrument(
        "calipers-and-rule",
        "Inside or outside calipers, set against a rule",
        _INCH / 64,
        root_sum_square(resolution_uncertainty(_INCH / 64), rectangular(_INCH / 32)),
        "Read to 1/64 in, and within 1/32 in for the feel of the legs. Common practice, no source.",
    ),
    Instrument(
        "photograph",
        "Photograph with a scale beside the piece",
        1.0,
        rectangular(2.5),
        "Within 2.5 mm on a piece as long as a hand, more on longer ones. "
        "Common practice, no source.",
        "A face nearer to the camera than the scale looks larger than it is.",
    ),
    Instrument(
        "drawing",
        "Dimension on a drawing",
        _INCH / 64,
        rectangular(_INCH / 64),
        "What was meant, within 1/64 in where no tolerance is given. Common practice, no source.",
        "A drawing says what was meant to be made, not what this piece is now.",
    ),
    Instrument(
        "pattern-rule",
        "Pattern-maker's rule",
        _INCH / 32,
        rectangular(_INCH / 8),
        "Within 1/8 in until the shrinkage it is divided for is known. Common practice, no source.",
        "Its divisions are stretched by the shrinkage of the metal, about 1/8 in to the foot for "
        "cast iron, so it reads short. Measure again with an ordinary rule.",
    ),
    Instrument(
        "eye",
        "By eye",
        _INCH / 4,
        rectangular(_INCH / 2),
        "Within 1/2 in on something as long as a hand. Common practice, no source.",
        "An estimate tells large from small and settles no fit.",
    ),
)

INSTRUMENTS: Mapping[str, Instrument] = MappingProxyType({one.code: one for one in _ALL})


def starting_uncertainty(
    *, resolution_mm: float | None = None, greatest_error_mm: float | None = None
) -> float | None:
    """Return the standard uncertainty of an instrument from what is known of it, in mm.

    A greatest error, such as the maker states, counts as rectangular (EURACHEM/CITAC, E.1), and
    before the division alone, which is rounded to (JCGM 100, F.2.2.1). The larger of the two is
    returned, because nobody reads finer than the marks. Nothing known gives nothing.

    >>> round(starting_uncertainty(resolution_mm=0.02, greatest_error_mm=0.05), 3)
    0.029
    >>> round(starting_uncertainty(resolution_mm=1.0), 2)
    0.29
    """
    known = [
        *([] if resolution_mm is None else [resolution_uncertainty(resolution_mm)]),
        *([] if greatest_error_mm is None else [rectangular(greatest_error_mm)]),
    ]
    return max(known, default=None)
