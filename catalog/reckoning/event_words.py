"""Say in one phrase what happened to a vehicle or part, and between whom."""

# How each kind of event is said, with how whoever gave it and whoever got it are joined to it.
_SAID = {
    "built": ("built", "by", "for"),
    "sold": ("sold", "by", "to"),
    "transferred": ("transferred", "from", "to"),
    "given": ("given", "by", "to"),
    "lent": ("lent", "by", "to"),
    "moved": ("moved", "from", "to"),
    "listed": ("listed or seen", "with", "with"),
    "rebuilt": ("rebuilt", "by", "for"),
    "renumbered": ("renumbered or renamed", "by", "for"),
    "laid_up": ("laid up", "with", "with"),
    "returned": ("returned to service", "with", "with"),
    "scrapped": ("scrapped", "for", "by"),
}


def event_phrase(kind: str, *, giver: str = "", taker: str = "", keeper: str = "") -> str:
    """Return what happened, with the names of those concerned.

    Assumption: ``kind`` is a kind of provenance event. What was acquired by nobody named came
    to the group whose catalog this is.

    >>> event_phrase("sold", giver="the tramway", taker="J. Pellow & Sons")
    'sold by the tramway to J. Pellow & Sons'
    >>> event_phrase("acquired", giver="Rowan Ashdown", taker="the tramway group")
    'acquired by the tramway group from Rowan Ashdown'
    >>> event_phrase("lent", taker="the borough", keeper="the parks department")
    'lent to the borough, kept by the parks department'
    """
    if kind == "acquired":
        told = [f"acquired by {taker or 'the group'}", f"from {giver}" if giver else ""]
    else:
        words, of_giver, of_taker = _SAID[kind]
        giving = f"{of_giver} {giver}" if giver else ""
        joined = "and" if giver and of_giver == of_taker else of_taker
        taking = f"{joined} {taker}" if taker else ""
        told = [words, giving, taking]
    phrase = " ".join(filter(None, told))
    return f"{phrase}, kept by {keeper}" if keeper else phrase
