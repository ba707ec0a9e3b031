"""Read what a donor says was there, and say how it differs from what was found."""

import re
from dataclasses import dataclass
from fractions import Fraction

_NUMBER_WORDS = dict(
    zip(
        [
            *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
            *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
            *("eighteen", "nineteen", "twenty"),
        ],
        range(1, 21),
        strict=True,
    )
)
_NUMBER_WORDS |= {"a": 1, "an": 1}
_SEVERAL = {"pair": 2, "pairs": 2, "dozen": 12, "dozens": 12, "score": 20, "gross": 144}
_SEVERAL |= {"hundred": 100, "thousand": 1000}
_ABOUT = re.compile(
    r"(?:about|some|ca|c|circa|approx|approximately|around|roughly|nearly|almost|abt|perhaps"
    r"|maybe|at least|at most|over|under|up to|more than|fewer than|~)\b\.?\s*|~\s*",
    re.IGNORECASE,
)
_FIGURES = re.compile(
    r"(\d{1,3}(?:,\d{3})+|\d+)(?![/.,]?\d)(?!\s*[/.\"'′″½¼¾]|-[a-z]|\s+\d+/)(\+?)"
)
# A figure before one of these is a size, not a count: 16 in wheels.
_UNIT = re.compile(r"\s*(in|inch|inches|ft|feet|foot|mm|cm|m|lb|lbs|kg|gauge|deg)\b", re.IGNORECASE)
_WORD = re.compile(r"[a-z]+(?![\w-])", re.IGNORECASE)
_RANGE = re.compile(r"\s*(?:-|–|to\b|or\b)\s*(?=[\da-z])(?!an?\b)", re.IGNORECASE)
_LOOSE = re.compile(r"\s+(?:or so|odd)\b", re.IGNORECASE)
_FEW = re.compile(r"an?\s+(?:few|lot|number|quantity|load)\b", re.IGNORECASE)
_HALF_DOZEN = re.compile(r"half\s+an?\s+dozen\b", re.IGNORECASE)
_FOLLOWING = re.compile(r"\s+(\w+)(?![\w-])")
_BETWEEN = re.compile(r"\s*(?:[x×]\s+|off\b\s*|no\.\s+|nos\.\s+|of\b\s*)?", re.IGNORECASE)
_PHRASE_ENDS = re.compile(r"[,;:(]|\s(?:with|and|some|all|each|from|off)\s", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class StatedWords:
    """Hold one stated line: how many, whether that was only about so many, and of what."""

    quantity: int | None
    is_approximate: bool
    rest: str

    @property
    def noun(self) -> str:
        """Return the first phrase of what was stated, which names the thing.

        >>> read_stated_line("seven journal boxes, some with brasses").noun
        'journal boxes'
        """
        return _PHRASE_ENDS.split(self.rest, maxsplit=1)[0].strip()


def read_stated_line(text: str) -> StatedWords:
    """Read the count at the head of a stated line: numerals, or words up to twenty.

    Dozens, pairs, scores and hundreds are counted out. A figure that is a size (16-in wheels,
    3/4 bolts) is no count, and where a range is stated the larger number is kept as “about”, so
    that nothing stated goes unlooked for. Without a count all the words are the rest. The words
    that people use for numbers are common practice, no source.

    >>> read_stated_line("about a dozen springs")
    StatedWords(quantity=12, is_approximate=True, rest='springs')
    >>> read_stated_line("various castings").quantity
    """
    words = " ".join(text.split())
    about = _ABOUT.match(words)
    counted = _count(words, about.end() if about else 0)
    if counted is None:
        return StatedWords(None, False, words)
    quantity, is_loose, end = counted
    rest = words[_BETWEEN.match(words, end).end() :]  # type: ignore[union-attr]
    return StatedWords(quantity, is_loose or about is not None, rest.strip())


def difference_words(
    stated: StatedWords, cataloged: int, *, surviving: Fraction | None = None
) -> str:
    """Say in words what was stated and what was cataloged.

    ``surviving`` is how much of the pieces is there, which is less where some are fragments.

    >>> difference_words(read_stated_line("10 hinges"), 9)
    '10 hinges stated, 9 cataloged'
    >>> difference_words(read_stated_line("3 drawheads"), 3, surviving=Fraction(5, 2))
    '3 drawheads stated, 3 cataloged, which survive to 2.5'
    """
    found = f"{cataloged} cataloged" if cataloged else "none cataloged"
    if surviving is not None and surviving != cataloged:
        found = f"{found}, which survive to {float(surviving):.4g}"
    return f"{stated_words(stated)}, {found}"


def agrees(stated: StatedWords, cataloged: int) -> bool:
    """Say whether as many were cataloged as stated; without a number any will do.

    “About ten” and nine do not agree: how far “about” reaches is for a person to settle.

    >>> agrees(read_stated_line("about ten hinges"), 9)
    False
    """
    return cataloged > 0 if stated.quantity is None else cataloged == stated.quantity


def stated_words(stated: StatedWords) -> str:
    """Say what was stated, with its number in figures.

    >>> stated_words(read_stated_line("ca. seven boxes, wet"))
    'about 7 boxes stated'
    """
    if stated.quantity is None:
        return f"{stated.noun or 'some'} stated without a number"
    about = "about " if stated.is_approximate else ""
    noun = f" {stated.noun}" if stated.noun else ""
    return f"{about}{stated.quantity}{noun} stated"


def _count(words: str, start: int) -> tuple[int, bool, int] | None:
    first = _number(words, start)
    if first is None:
        return None
    quantity, is_loose, end = first
    between = _RANGE.match(words, end)
    if between and (second := _number(words, between.end())):
        return max(quantity, second[0]), True, second[2]
    if loose := _LOOSE.match(words, end):
        return quantity, True, loose.end()
    return quantity, is_loose, end


def _number(words: str, start: int) -> tuple[int, bool, int] | None:
    if figures := _FIGURES.match(words, start):
        if _UNIT.match(words, figures.end()):
            return None
        quantity = int(figures[1].replace(",", ""))
        quantity, end = _times(words, quantity, figures.end())
        return (quantity, bool(figures[2]), end) if quantity else None
    word = _WORD.match(words, start)
    if word is None:
        return None
    return _worded(words, word)


def _worded(words: str, word: re.Match[str]) -> tuple[int, bool, int] | None:
    said = word[0].lower()
    if dozen := _HALF_DOZEN.match(words, word.start()):
        return 6, False, dozen.end()
    if said in _SEVERAL:
        return _SEVERAL[said], False, word.end()
    if _FEW.match(words, word.start()):
        return None
    if said in _NUMBER_WORDS:
        quantity, end = _times(words, _NUMBER_WORDS[said], word.end())
        return quantity, False, end
    return None


def _times(words: str, quantity: int, end: int) -> tuple[int, int]:
    """Multiply by the dozen or the pair that follows."""
    couple = _FOLLOWING.match(words, end)
    if couple and (times := _SEVERAL.get(couple[1].lower())):
        return quantity * times, couple.end()
    return quantity, end
