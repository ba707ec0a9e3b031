"""Accession numbers: year, accession, item and letters for pieces, as in 2026.4.17a."""

import re
from dataclasses import dataclass
from string import ascii_lowercase

PATTERN = re.compile(
    r"(?P<year>\d{4})\.(?P<accession>\d{1,6})(?:\.(?P<item>\d{1,6})(?P<piece>[a-z]{0,4}))?",
    re.ASCII | re.IGNORECASE,
)


class AccessionNumberError(ValueError):
    """An accession number that cannot be read, with the reason in words."""


@dataclass(frozen=True, slots=True)
class AccessionNumber:
    """The number of an accession, of an item in it, or of a piece of an item.

    The three-part number with letters for pieces is museum practice (common
    practice, no source).

    >>> str(AccessionNumber(2026, 4, 17, "a"))
    '2026.4.17a'
    """

    year: int
    accession: int
    item: int | None = None
    piece: str = ""

    def __post_init__(self) -> None:
        if not 1000 <= self.year <= 9999:
            raise AccessionNumberError(f"The year {self.year} does not have four figures.")
        for count in (self.accession, self.item):
            if count is not None and not 1 <= count <= 999_999:
                raise AccessionNumberError(
                    f"Accessions and items are counted from 1 to 999,999, not {count}."
                )
        if self.piece:
            _check_piece(self.piece, self.item)

    def __str__(self) -> str:
        item = "" if self.item is None else f".{self.item}"
        return f"{self.year}.{self.accession}{item}{self.piece}"

    @property
    def sort_key(self) -> str:
        """Return text that sorts as the number does, part by part.

        An accession comes before its items, an item before its pieces, and
        piece z before piece aa.

        >>> AccessionNumber(2026, 4, 17, "a").sort_key
        '2026.000004.000017.1a'
        """
        piece = f"{len(self.piece)}{self.piece}"
        return f"{self.year:04}.{self.accession:06}.{self.item or 0:06}.{piece}"


def parse_accession_number(text: str) -> AccessionNumber:
    """Read an accession number as people write it.

    Spaces around it, leading zeros and capital letters for pieces are allowed.

    >>> parse_accession_number(" 2026.04.017A ")
    AccessionNumber(year=2026, accession=4, item=17, piece='a')
    """
    found = PATTERN.fullmatch(text.strip())
    if found is None:
        raise AccessionNumberError(
            f"“{text.strip()}” is not an accession number: write the year, the accession and "
            "the item with dots between, such as 2026.4.17, and letters for pieces, 2026.4.17a."
        )
    item = found["item"]
    return AccessionNumber(
        int(found["year"]),
        int(found["accession"]),
        None if item is None else int(item),
        (found["piece"] or "").lower(),
    )


def next_piece(piece: str) -> str:
    """Return the letters after ``piece``: a to z, then aa, ab.

    >>> next_piece(""), next_piece("a"), next_piece("z"), next_piece("az"), next_piece("zz")
    ('a', 'b', 'aa', 'ba', 'aaa')
    """
    if not piece:
        return "a"
    head, last = piece[:-1], piece[-1]
    if last not in ascii_lowercase:
        raise AccessionNumberError(f"Pieces are lettered a to z, not “{piece}”.")
    if last == "z":
        return next_piece(head) + "a"
    return head + ascii_lowercase[ascii_lowercase.index(last) + 1]


def _check_piece(piece: str, item: int | None) -> None:
    """Refuse piece letters that cannot be sorted or that hang in the air."""
    if item is None:
        raise AccessionNumberError(f"Piece “{piece}” needs an item number before it.")
    if not re.fullmatch("[a-z]{1,4}", piece):
        raise AccessionNumberError(f"Pieces are lettered a to zzzz, not “{piece}”.")
