"""Match a worn mark, ``?`` for an illegible character, against marks that are known."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from math import comb, prod
from string import ascii_uppercase, digits

CHARACTERS = digits + ascii_uppercase
ILLEGIBLE = "?"
# An ellipsis, or three periods, stands for a stretch lost with its length unknown.
LOST = "…"

# How readily a worn cast or stamped character passes for another, against 1 for being
# read as itself (common practice, no source; judged by the strokes that wear leaves).
LOOK_ALIKES: Mapping[str, float] = {
    "0O": 0.9, "1I": 0.9, "5S": 0.5, "8B": 0.5, "2Z": 0.5, "0Q": 0.4, "OQ": 0.4, "0D": 0.4,
    "OD": 0.4, "1L": 0.3, "IL": 0.3, "17": 0.3, "7I": 0.2, "7T": 0.3, "IT": 0.3, "1T": 0.2,
    "38": 0.5, "3B": 0.3, "60": 0.3, "68": 0.3, "6G": 0.4, "90": 0.3, "98": 0.3, "69": 0.2,
    "6O": 0.2, "9O": 0.2, "80": 0.2, "35": 0.2, "56": 0.2, "CG": 0.5, "CO": 0.4, "C0": 0.3,
    "GO": 0.3, "G0": 0.2, "EF": 0.5, "PR": 0.5, "PF": 0.3, "BR": 0.3, "BE": 0.2, "UV": 0.5,
    "VY": 0.3, "MN": 0.3, "MW": 0.2, "HN": 0.3, "KX": 0.3, "KR": 0.2, "4A": 0.2, "OU": 0.2,
}  # fmt: skip

# The chance that a piece bears a mark not yet known for what it is, or that the note
# of the mark is faulty: no mismatch alone may rule a piece out (no source).
UNRELATED = 0.02

NOTHING_LEGIBLE = "No character is legible, so the mark says nothing."

NOT_A_CHARACTER = re.compile(r"[^0-9A-Z?…]+")


@dataclass(frozen=True, slots=True)
class MarkMatch:
    """How well a mark as read agrees with a known mark.

    ``share`` is the share of compatible readings, 1 when every legible character
    agrees; ``chance`` is that share for a random mark of the same length.
    """

    read: str
    known: str
    share: float
    chance: float
    explanation: str

    @property
    def ratio(self) -> float:
        """Return how many times likelier the reading is if the mark is the known one.

        It is 1 when the reading says nothing, and never under 0.02, since a piece
        may bear another mark.
        """
        return (1 - UNRELATED) * self.share / self.chance + UNRELATED

    @property
    def score(self) -> float:
        """Return the ratio brought between 0 and 1, 0.5 when the reading says nothing."""
        return self.ratio / (1 + self.ratio)


def match_mark(read: str, known: str) -> MarkMatch:
    """Weigh a worn mark against a known one.

    Assumes that characters wear independently and that a random mark draws each
    of 36 letters and digits alike. The share multiplies the weights of
    ``LOOK_ALIKES`` along the mark; where characters were lost, the best placing
    counts, and the chance is raised by the number of placings tried.

    >>> round(match_mark("K?88", "KJ38").ratio), match_mark("???", "K14").ratio
    (1944, 1.0)
    """
    worn, whole = normalize_mark(read), normalize_mark(known)
    if says_nothing(read):
        return MarkMatch(read, known, 1.0, 1.0, NOTHING_LEGIBLE)
    placings = _placings(worn, whole)
    share = _best_share(worn, whole) if placings else 0.0
    chance = min(1.0, max(placings, 1) * _chance(worn, whole))
    return MarkMatch(read, known, share, chance, _explain(worn, whole, share, chance))


def rank_marks(read: str, known_marks: Iterable[str]) -> tuple[MarkMatch, ...]:
    """Weigh a worn mark against each known mark, the likeliest first.

    >>> [match.known for match in rank_marks("K1?", ["B22", "K14", "W14"])]
    ['K14', 'B22', 'W14']
    """
    matches = (match_mark(read, known) for known in dict.fromkeys(known_marks))
    return tuple(sorted(matches, key=lambda match: (-match.score, match.known)))


def normalize_mark(text: str) -> str:
    """Keep letters, digits, ``?`` and the sign of a lost stretch; drop case, spaces and dots.

    >>> normalize_mark(" c. & v.  No. 4?2 "), normalize_mark("tol...14")
    ('CVNO4?2', 'TOL…14')
    """
    capitals = text.upper().replace("...", LOST)
    return re.sub("…+", LOST, NOT_A_CHARACTER.sub("", capitals))


def says_nothing(text: str) -> bool:
    """Say whether no letter and no digit of a mark can be read.

    >>> says_nothing("? ?"), says_nothing("-"), says_nothing("K?")
    (True, True, False)
    """
    return not set(normalize_mark(text)) - {ILLEGIBLE, LOST}


def look_alike_weight(read: str, true: str) -> float:
    """Return how readily ``true`` passes for ``read``, 1 when nothing speaks against it.

    >>> look_alike_weight("8", "3"), look_alike_weight("3", "8"), look_alike_weight("8", "W")
    (0.5, 0.5, 0.0)
    """
    if read == true or ILLEGIBLE in (read, true):
        return 1.0
    return LOOK_ALIKES.get(read + true, LOOK_ALIKES.get(true + read, 0.0))


@cache
def _random_weight(read: str) -> float:
    """Return the mean weight of one read character over all true characters."""
    return sum(look_alike_weight(read, true) for true in CHARACTERS) / len(CHARACTERS)


def _placings(worn: str, whole: str) -> int:
    """Count the ways of laying the read characters along the known mark."""
    gaps = worn.count(LOST)
    spare = len(whole) - (len(worn) - gaps)
    if gaps == 0 or spare < 0:
        return int(spare == 0)
    return comb(spare + gaps - 1, gaps - 1)


def _best_share(worn: str, whole: str) -> float:
    """Return the greatest product of weights over all placings, row by row."""
    row = [1.0] + [0.0] * len(whole)
    for read in worn:
        if read == LOST:
            row = [max(row[: end + 1]) for end in range(len(row))]
        else:
            weights = (look_alike_weight(read, true) for true in whole)
            row = [0.0, *(past * weight for past, weight in zip(row, weights, strict=False))]
    return row[-1]


def _chance(worn: str, whole: str) -> float:
    """Return the expected share of one placing along a random mark.

    An open place of the known mark is as open for a random one, and so is left out
    by taking the characters in order where nothing is lost.
    """
    if LOST not in worn and len(worn) == len(whole):
        pairs = zip(worn, whole, strict=True)
        return prod(_random_weight(read) for read, true in pairs if true != ILLEGIBLE)
    return prod(_random_weight(read) for read in worn if read != LOST)


def _explain(worn: str, whole: str, share: float, chance: float) -> str:
    """Say in a sentence how a reading agrees with a known mark."""
    legible = sum(character not in (ILLEGIBLE, LOST) for character in worn)
    if LOST not in worn and len(worn) != len(whole):
        return (
            f"{len(worn)} characters read, {len(whole)} in the known mark; write … where a "
            "stretch is lost."
        )
    if share == 0:
        return f"{_agreement(legible, is_agreed=False)} with {whole}."
    agrees = f"{_agreement(legible, is_agreed=True)} with {whole}"
    if chance > 0.5:
        return f"{agrees}, as a random mark would about as well."
    wear = "" if share == 1 else f" if wear {_wear(worn, whole)} (weight {share:.2g})"
    return f"{agrees}{wear}; a random mark would agree 1 time in {1 / chance:,.0f}."


def _agreement(legible: int, *, is_agreed: bool) -> str:
    """Begin a sentence about the legible characters.

    >>> _agreement(1, is_agreed=True), _agreement(3, is_agreed=False)
    ('The 1 legible character agrees', 'The 3 legible characters do not agree')
    """
    one = legible == 1
    agree = ("agrees" if one else "agree") if is_agreed else f"{'does' if one else 'do'} not agree"
    return f"The {legible} legible character{'' if one else 's'} {agree}"


def _wear(worn: str, whole: str) -> str:
    """Name the characters that wear must have changed, where their places are plain."""
    if LOST in worn:
        return "made look-alikes of some"
    pairs = zip(worn, whole, strict=True)
    return "made " + ", ".join(f"{t} into {r}" for r, t in pairs if look_alike_weight(r, t) < 1)
