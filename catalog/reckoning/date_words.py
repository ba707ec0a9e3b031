"""Turn a date as people say it into Extended Date/Time Format text."""

import re

from catalog.reckoning.date_phrases import UNKNOWN_FIGURE
from catalog.reckoning.edtf_calendar import DateError, Day, day_after, day_before
from catalog.reckoning.edtf_grammar import read_atom
from catalog.reckoning.single_dates import MONTH, YEAR, single_date

_NOTHING = re.compile(r"|\?|unknown|(date )?not known|undated|no date|n\.? ?d\.?", re.I)
_EDTF = re.compile(r"(?:[0-9XYTZE?~%:+./,\[\]{}-]|S(?=[0-9]))+")
_SOME_TIME = r"(?:(?:at )?some ?time )?"
# A joint within a note in parentheses joins no dates.
_JOINT = r"(?:, (?!year unknown)(?:or |and )?| or | and |,(?! ))(?![^(]*\))"
_AND = r" and (?![^(]*\))"
_UNKNOWN = "an unknown date"


def to_edtf(text: str) -> str:
    """Return the EDTF text of a date in words or EDTF; nothing known gives nothing.

    >>> to_edtf("before June 1956"), to_edtf("1905 or 1906"), to_edtf("early 1890s")
    ('../1956-05', '[1905,1906]', '1890/1893~')
    """
    tidy = re.sub(r"[‐‑‒–—−]", "-", " ".join(text.replace("’", "'").split()))
    tidy = tidy.rstrip(" .;,") if not tidy.endswith("..") else tidy
    if _NOTHING.fullmatch(tidy):
        return ""
    written = (
        re.sub(r" ?([,/?~%]|\.\.) ?", r"\1", tidy.removesuffix(UNKNOWN_FIGURE)).strip().upper()
    )
    if _EDTF.fullmatch(written) and not _is_numbered_day(written):
        return written
    return _expression(_without_day_commas(tidy))


def _is_numbered_day(text: str) -> bool:
    return bool(
        re.fullmatch(r"[0-9]{1,4}([./-])[0-9]{1,2}\1[0-9]{1,4}", text)
    ) and not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text)


def _without_day_commas(text: str) -> str:
    """Write “June 14, 1881” and “June, 1881” without the comma, which then only parts a list."""
    text = re.sub(
        rf"\b{MONTH} ([0-9]{{1,2}})(?:st|nd|rd|th)?,? ({YEAR})\b", r"\2 \1 \3", text, flags=re.I
    )
    return re.sub(rf"\b{MONTH}, ({YEAR})\b", r"\1 \2", text, flags=re.I)


def _expression(text: str) -> str:
    for pattern, build in _RULES:
        found = pattern.fullmatch(text)
        if found:
            return build(found)
    return single_date(text)


def _between(found: re.Match[str]) -> str:
    start, end = _end(found[1], found[2]), _end(found[2], found[1])
    return f"{start}/{end}"


def _end(text: str, other: str) -> str:
    return "" if text.lower() == _UNKNOWN else single_date(_completed(text, other))


def _completed(text: str, other: str) -> str:
    """Lend a day or month what its neighbor has and it lacks: “June or July 1911”."""
    month = re.search(rf"\b{MONTH} {YEAR}$", other, re.I)
    if month and re.fullmatch("[0-9]{1,2}", text):
        return f"{text} {month[0]}"
    year = re.search(rf"\b{YEAR}$", other)
    bare = re.fullmatch(rf"(?:[0-9]{{1,2}} )?{MONTH}|spring|summer|fall|autumn|winter", text, re.I)
    return f"{text} {year[0]}" if bare and year else text


def _through(found: re.Match[str]) -> str:
    start, end = _end(found[1], found[2]), _end(found[2], found[1])
    return f"{{{start}..{end}}}"


def _before(found: re.Match[str]) -> str:
    text, mark = _unmarked(single_date(found[1]))
    first = read_atom(text).first
    if first is None:
        raise DateError(f"“{found[0]}” needs a year.")
    return f"../{_shortest(day_before(first), is_end=True)}{mark}"


def _after(found: re.Match[str]) -> str:
    text, mark = _unmarked(single_date(found[1]))
    last = read_atom(text).last
    if last is None:
        raise DateError(f"“{found[0]}” needs a year.")
    return f"{_shortest(day_after(last), is_end=False)}{mark}/.."


def _unmarked(edtf: str) -> tuple[str, str]:
    return (edtf[:-1], edtf[-1]) if edtf[-1] in "?~%" else (edtf, "")


def _shortest(day: Day, *, is_end: bool) -> str:
    """Write a boundary as a year or month where that has the same end."""
    year, month, number = day
    written = f"{year:04}" if year >= 0 else f"-{-year:04}"
    if abs(year) > 9999:
        return f"Y{year}"
    following = day_after(day) if is_end else day
    if following[2] > 1:
        return f"{written}-{month:02}-{number:02}"
    return f"{written}-{month:02}" if following[1] > 1 else written


def _list(found: re.Match[str]) -> str:
    members = re.split(_JOINT, found[0])
    dates = [single_date(_completed(member, members[-1])) for member in members]
    opening, closing = ("{", "}") if re.search(_AND, found[0]) else ("[", "]")
    return f"{opening}{','.join(dates)}{closing}"


def _long_list(found: re.Match[str]) -> str:
    members = ",".join(_member(member.strip()) for member in found[2].split(";"))
    return f"[{members}]" if found[1].lower() == "one" else f"{{{members}}}"


def _member(text: str) -> str:
    ranged = re.fullmatch(r"(.+) to (.+)", text)
    if ranged:
        return f"{single_date(ranged[1])}..{single_date(ranged[2])}"
    if text.endswith(" or later"):
        return f"{single_date(text.removesuffix(' or later'))}.."
    if text.endswith(" or earlier"):
        return f"..{single_date(text.removesuffix(' or earlier'))}"
    return single_date(text)


def _part_of_decade(found: re.Match[str]) -> str:
    """Split a decade 4-3-3 (common practice, no source); the inner border is approximate."""
    decade = found[2]
    return {
        "early": f"{decade}0/{decade}3~",
        "mid": f"{decade}4~/{decade}6~",
        "late": f"{decade}7~/{decade}9",
    }[found[1].lower()]


def _part_of_year(found: re.Match[str]) -> str:
    """Split a year into thirds, marked approximate (common practice, no source)."""
    return f"{found[2]}-{ {'early': 37, 'mid': 38, 'late': 39}[found[1].lower()] }~"


def _part_of_month(found: re.Match[str]) -> str:
    """Split a month at the 10th and 20th, marked approximate (common practice, no source)."""
    month = single_date(found[2])
    last = read_atom(month).last
    end = last[2] if last else 0
    days = {"early": (1, 10), "mid": (11, 20), "late": (21, end)}[found[1].lower()]
    return f"{month}-{days[0]:02}~/{month}-{days[1]:02}~"


def _two_meanings(found: re.Match[str]) -> str:
    first, last = found[1], found[2]
    raise DateError(
        f"“{found[0]}” can be meant in two ways. Write “between {first} and {last}” for some time "
        f"in those years, or “from {first} to {last}” for all of them."
    )


def _rule(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.I)


_PART = r"(early|mid|late)(?: in| -|-| )(?:the )?"
_RULES = (
    (_rule(r"(one|all) of these: (.+)"), _long_list),
    (_rule(rf"{_SOME_TIME}between (.+){_AND}(.+)"), _between),
    (_rule(r"from (.+) (?:to|until|till|through) (.+)"), _through),
    (_rule(r"(?:from|since) (.+?)(?: on| onwards?)?"), lambda f: f"{{{single_date(f[1])}..}}"),
    (_rule(r"(?:until|till|up to) (.+)"), lambda f: f"{{..{single_date(f[1])}}}"),
    (_rule(r"(?:throughout|all of) (.+)"), lambda f: f"{{{single_date(f[1])}}}"),
    (_rule(rf"{_SOME_TIME}(?:before|bef\.?|earlier than) (.+)"), _before),
    (_rule(rf"{_SOME_TIME}(?:after|aft\.?|later than) (.+)"), _after),
    (_rule(r"(?:by|no later than|not after) (.+)"), lambda f: f"../{single_date(f[1])}"),
    (_rule(r"(.+?),? or (?:earlier|before)"), lambda f: f"../{single_date(f[1])}"),
    (_rule(r"(?:not before|no earlier than) (.+)"), lambda f: f"{single_date(f[1])}/.."),
    (_rule(r"(.+?),? or (?:later|after)"), lambda f: f"{single_date(f[1])}/.."),
    (_rule(rf"{_PART}([0-9]{{3}})0'?s"), _part_of_decade),
    (_rule(rf"{_PART}([0-9]{{4}})"), _part_of_year),
    (_rule(rf"{_PART}({MONTH} [0-9]{{4}})"), _part_of_month),
    (_rule(r"([0-9]{4})(?: - | to |-)([0-9]{4})"), _two_meanings),
    (_rule(r"(.+) (?:to|-) (.+)"), _two_meanings),
    (_rule(r".+(?: or | and )(?![^(]*\)).+"), _list),
)
