"""Tag codes: short random names printed on labels, with one check character.

A code is six random characters and one check character of ISO 7064 MOD 37-2,
a pure system: with values below the prime 37 and radix 2, a single wrong
character shifts the sum by ``2**i * (a - b)`` and a swap of neighbors by
``2**i * (b - a)``, neither of which can be a multiple of 37. The hybrid system
MOD 37,36 lets some swaps through, and so was not taken.
"""

import re
from typing import Protocol

# One of each group that looks alike in print or on a worn label stays: no 0 O D,
# no 1 I L T, no Z beside 2, no S beside 5, no B beside 8, no G beside 6 and C,
# no U beside V, no N beside M; and no vowels, so that no code is a word.
TAG_ALPHABET = "23456789CFHJKMPQRVWX"
TAG_LENGTH = 7
GROUP = 3

# The standard gives digits the values 0 to 9, letters 10 to 35, the asterisk 36.
ISO_7064_CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
MODULUS = len(ISO_7064_CHARACTERS)
RADIX = 2

SEPARATORS = re.compile(r"[\s\-\u2010-\u2015\u2212._]+")


class Chooser(Protocol):
    """The one thing asked of a source of chance, such as ``random.Random``."""

    def choice(self, seq: str, /) -> str: ...


def new_tag_code(random: Chooser) -> str:
    """Draw a new tag code in its printed form.

    A draw whose check character is not in the printed alphabet is thrown away,
    which leaves some 34 million codes, all equally likely. Whether a code is
    already in use is for the caller to look up. Give ``random.SystemRandom()``
    where codes must not be guessed.

    >>> from random import Random
    >>> is_valid_tag_code(new_tag_code(Random(0)))
    True
    """
    while True:
        body = "".join(random.choice(TAG_ALPHABET) for _ in range(TAG_LENGTH - 1))
        check = check_character(body)
        if check in TAG_ALPHABET:
            return printed_form(body + check)


def check_character(body: str) -> str:
    """Compute the ISO 7064 MOD 37-2 check character of ``body``.

    The character makes the weighted sum leave 1 when divided by 37
    (ISO/IEC 7064:2003, pure systems).

    >>> check_character("K7Q2M9")
    'V'
    """
    return ISO_7064_CHARACTERS[(1 - RADIX * _remainder(body)) % MODULUS]


def normalize_tag_code(text: str) -> str:
    """Bring a typed or scanned code to its printed form, without judging it.

    Case, spaces, dots and any dash are ignored; of a scanned address only the
    last part is kept. Text of another length comes back without a hyphen.

    >>> normalize_tag_code(" k7q 2m9v ")
    'K7Q-2M9V'
    >>> normalize_tag_code("https://shed.example/t/K7Q-2M9V/")
    'K7Q-2M9V'
    """
    last_part = text.strip().rstrip("/").rpartition("/")[2]
    return printed_form(SEPARATORS.sub("", last_part).upper())


def printed_form(characters: str) -> str:
    """Group the characters as they are printed, three and four.

    >>> printed_form("K7Q2M9V")
    'K7Q-2M9V'
    """
    if len(characters) != TAG_LENGTH:
        return characters
    return f"{characters[:GROUP]}-{characters[GROUP:]}"


def is_valid_tag_code(text: str) -> bool:
    """Say whether ``text`` can be a printed tag code.

    >>> is_valid_tag_code("K7Q-2M9V"), is_valid_tag_code("K7Q-29MV")
    (True, False)
    """
    return tag_problem(text) is None


def tag_problem(text: str) -> str | None:
    """Say in one sentence what is wrong with a tag code, or None.

    >>> tag_problem("K7Q-2M9V")
    >>> tag_problem("K7Q-2M9")
    'A tag code has 7 characters, such as K7Q-2M9V; this has 6.'
    >>> tag_problem("K7O-2M9V")
    '“O” is never printed on a tag; look at the tag again.'
    >>> tag_problem("K7Q-29MV")
    'One character of K7Q-29MV is wrong, or two have changed places; look at the tag again.'
    """
    characters = normalize_tag_code(text).replace("-", "")
    strange = [character for character in characters if character not in TAG_ALPHABET]
    if not characters:
        return "No tag code was given; it is the code of 7 characters on the label."
    if strange:
        return f"“{strange[0]}” is never printed on a tag; look at the tag again."
    if len(characters) != TAG_LENGTH:
        count = len(characters)
        return f"A tag code has {TAG_LENGTH} characters, such as K7Q-2M9V; this has {count}."
    if _remainder(characters) != 1:
        shown = printed_form(characters)
        return (
            f"One character of {shown} is wrong, or two have changed places; look at the tag again."
        )
    return None


def _remainder(characters: str) -> int:
    """Return the weighted sum of the characters modulo 37, the last weighted 1."""
    total = 0
    for character in characters:
        total = (total * RADIX + ISO_7064_CHARACTERS.index(character)) % MODULUS
    return total
