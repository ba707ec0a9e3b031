"""Counting things in English: one journal box, two journal boxes."""

from collections.abc import Sequence


def plural(name: str) -> str:
    """Return the plural of a trade name by the usual rules of spelling.

    Assumption: the name is regular; a shop's names for its pieces nearly always are.

    >>> plural("brass"), plural("body"), plural("key"), plural("hinge")
    ('brasses', 'bodies', 'keys', 'hinges')
    """
    if name.endswith(("s", "x", "ch", "sh")):
        return f"{name}es"
    if name.endswith("y") and name[-2:-1] not in "aeiou":
        return f"{name[:-1]}ies"
    return f"{name}s"


def counted(count: int, name: str) -> str:
    """Return a number with the name of what is counted.

    >>> counted(1, "journal box"), counted(2, "journal box")
    ('1 journal box', '2 journal boxes')
    """
    return f"{count} {name if count == 1 else plural(name)}"


def one(name: str) -> str:
    """Return the name of a single piece with its article.

    Assumption: a written vowel is a spoken one, as in nearly all trade names.

    >>> one("journal box"), one("end door")
    ('a journal box', 'an end door')
    """
    return f"{'an' if name[:1].lower() in tuple('aeiou') else 'a'} {name}"


def listed(words: Sequence[str]) -> str:
    """Join words as a sentence does.

    >>> listed(["1 drawhead", "2 hinges", "1 latch"])
    '1 drawhead, 2 hinges and 1 latch'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
