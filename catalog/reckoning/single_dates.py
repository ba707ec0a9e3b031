"""Read one date in words: a day, month, season, year, decade or century."""

import calendar
import re
from collections.abc import Callable

from catalog.reckoning.date_phrases import ORDINALS, SEASONS, UNKNOWN_FIGURE
from catalog.reckoning.edtf_calendar import DateError

MONTH = (
    r"((?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|"
    r"sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?)"
)
YEAR = r"(?:[0-9]{1,18} BC|AD [0-9]{1,18}|-[0-9]{4}|[0-9X]{4})"
_ABOUT = re.compile(
    r"(?:(?:about|abt|around|approximately|approx|circa|ca|c)(?![a-z])\.? ?|~ ?)", re.I
)
_PERHAPS = re.compile(r"(?:perhaps|possibly|probably|maybe) ", re.I)
_QUERIED = re.compile(r" ?(?:\(\?\)|\?)$")
_NOTE = re.compile(r" \(((?:year|month|day) (?:uncertain|approximate)[a-z, ]*)\)$")
_MARKS = {frozenset("?"): "?", frozenset("~"): "~", frozenset("?~"): "%", frozenset(): ""}
_MONTHS = [name.lower() for name in calendar.month_abbr]
_UNITS = ("year", "month", "day")


def single_date(text: str) -> str:
    """Return the EDTF text of one date in words, with its marks of doubt.

    >>> single_date("c. 14 June 1881"), single_date("perhaps the 1890s")
    ('1881-06-14~', '189X?')
    """
    marks = set()
    rest = text.strip()
    for sign, pattern in (("?", _QUERIED), ("?", _PERHAPS), ("~", _ABOUT), ("?", _PERHAPS)):
        shorter = pattern.sub("", rest) if pattern is _QUERIED else _cut(pattern, rest)
        marks |= {sign} if shorter != rest else set()
        rest = shorter
    note = _NOTE.search(rest)
    core = _core(rest[: note.start()] if note else rest)
    return _noted(core, note[1]) if note else _marked(core, marks)


def _cut(pattern: re.Pattern[str], text: str) -> str:
    found = pattern.match(text)
    return text[found.end() :] if found else text


def _marked(edtf: str, marks: set[str]) -> str:
    """Add marks to those that the date ends with already."""
    written = set({"%": "?~"}.get(edtf[-1], edtf[-1])) & {"?", "~"}
    return edtf.rstrip("?~%") + _MARKS[frozenset(written | marks)]


def _noted(edtf: str, note: str) -> str:
    """Put the marks named in a note such as “month approximate” before each part."""
    parts = re.findall(r"^-?[^-]+|[^-]+", edtf)
    marks = {one.split()[0]: one for one in note.split(", ")}
    signs = (("uncertain", "?"), ("approximate", "~"))
    marked = [
        _MARKS[frozenset(sign for word, sign in signs if word in marks.get(unit, ""))] + part
        for unit, part in zip(_UNITS, parts, strict=False)
    ]
    return "-".join(marked)


def _core(text: str) -> str:
    for pattern, build in _RULES:
        found = pattern.fullmatch(text)
        if found:
            return build(found)
    raise DateError(_refusal(text))


def _year(text: str) -> str:
    words = text.upper().split()
    if words[-1] == "BC":
        return _counted(1 - int(words[0]))
    return _counted(int(words[1])) if words[0] == "AD" else words[0]


def _counted(year: int) -> str:
    if abs(year) > 9999:
        return f"Y{year}"
    return f"{year:04}" if year >= 0 else f"-{-year:04}"


def _month(text: str) -> str:
    return f"{_MONTHS.index(text[:3].lower()):02}"


def _day(found: re.Match[str]) -> str:
    return f"{_year(found[3])}-{_month(found[2])}-{int(found[1]):02}"


def _clocked(found: re.Match[str]) -> str:
    zone = {None: "", "": "Z"}.get(found[3], found[3])
    return f"{_core(found[1])}T{found[2]}{zone}"


def _numbered(found: re.Match[str]) -> str:
    """Read a date in figures only where it can be meant in one way."""
    first, second, year = int(found[1]), int(found[3]), found[4]
    if first <= 12 and second <= 12 and first != second:
        raise DateError(
            f"“{found[0]}” can be {first} {calendar.month_name[second]} or {second} "
            f"{calendar.month_name[first]}. Please write the month in letters."
        )
    day, month = (first, second) if second <= 12 else (second, first)
    return f"{year}-{month:02}-{day:02}"


def _decade(found: re.Match[str]) -> str:
    decade = found[1]
    if decade.endswith("0"):
        raise DateError(
            f"“{found[0]}” can be the decade or the century. "
            f"Write “the decade {decade}0–{decade}9” or “the century {decade}0–{decade[:2]}99”."
        )
    return f"{decade}X"


def _season(found: re.Match[str]) -> str:
    name = found[1].lower().replace("autumn", "fall")
    year, following, half = found[2], found[3], found[4] or ""
    if following and (int(year) + 1) % 10 ** len(following) != int(following):
        raise DateError(f"“{found[0]}” needs two years in a row, such as winter 1911–12.")
    if following and name in ("spring", "fall"):
        raise DateError(f"“{found[0]}” needs one year only.")
    code = 21 + SEASONS.index(name) + {"": 0, "northern": 4, "southern": 8}[half.lower()]
    return f"{_year(year)}-{code}"


def _quarter(found: re.Match[str]) -> str:
    part = ORDINALS.index(found[1].lower().replace("last", "third").replace("middle", "second"))
    code = {"quarter": 33, "third": 37, "half": 40}[found[2].lower()] + part
    return f"{_year(found[3])}-{code}"


def _century(found: re.Match[str]) -> str:
    return f"{int(found[1]) - 1:02}XX"


def _refusal(text: str) -> str:
    short = re.search(r"(?<![0-9])'?([0-9]{2})'?(?:s)?$", text)
    if short and not re.search("[0-9]{3}", text):
        return (
            f"“{text}” needs the year in four figures: did you mean 18{short[1]} or 19{short[1]}?"
        )
    seasons = "|".join((*SEASONS, "autumn"))
    if re.fullmatch(rf"(?:[0-9]{{1,2}} )?(?:{MONTH}|{seasons})", text, re.I):
        return f"“{text}” needs a year, such as “{text} 1911”."
    return (
        f"“{text}” is not a date I can read. "
        "Try “14 June 1881”, “about 1902”, “1890s” or “before June 1956”."
    )


def _rule(
    pattern: str, build: Callable[[re.Match[str]], str]
) -> tuple[re.Pattern[str], Callable[[re.Match[str]], str]]:
    return re.compile(pattern, re.I), build


_MARK = "[?~%]?"
_IN = "(?: of| in|,)? "
_RULES = (
    _rule(
        rf"{_MARK}-?[0-9X]{{4}}{_MARK}(?:-{_MARK}[0-9X]{{2}}{_MARK}){{0,2}}|Y-?[0-9E]+{_MARK}",
        lambda f: f[0].upper(),
    ),
    _rule(rf"(.+) {re.escape(UNKNOWN_FIGURE)}", lambda f: f[1].upper()),
    _rule(rf"({YEAR})", lambda f: _year(f[1])),
    _rule(rf"(?:the )?([0-9]{{1,2}})(?:st|nd|rd|th)?(?: of)? {MONTH}{_IN}({YEAR})", _day),
    _rule(
        rf"{MONTH} ([0-9]{{1,2}})(?:st|nd|rd|th)?,? ({YEAR})",
        lambda f: _core(f"{f[2]} {f[1]} {f[3]}"),
    ),
    _rule(rf"{MONTH}{_IN}({YEAR})", lambda f: f"{_year(f[2])}-{_month(f[1])}"),
    _rule(rf"({YEAR}),? {MONTH}", lambda f: f"{_year(f[1])}-{_month(f[2])}"),
    _rule(rf"({YEAR}),? {MONTH} ([0-9]{{1,2}})", lambda f: _core(f"{f[3]} {f[2]} {f[1]}")),
    _rule(
        rf"([0-9]{{1,2}}) {MONTH}, year unknown", lambda f: f"XXXX-{_month(f[2])}-{int(f[1]):02}"
    ),
    _rule(rf"some day in {MONTH}, year unknown", lambda f: f"XXXX-{_month(f[1])}-XX"),
    _rule(rf"{MONTH}, year unknown", lambda f: f"XXXX-{_month(f[1])}"),
    _rule(rf"some month (?:of|in) ({YEAR})", lambda f: f"{_year(f[1])}-XX"),
    _rule(rf"some day (?:of|in) ({YEAR})", lambda f: f"{_year(f[1])}-XX-XX"),
    _rule(rf"some day (?:of|in) ({MONTH}{_IN}{YEAR})", lambda f: f"{_core(f[1])}-XX"),
    _rule(r"(.+) at ([0-9]{2}:[0-9]{2}:[0-9]{2})(?: UTC([0-9+:-]*))?", _clocked),
    _rule(r"([0-9]{1,2})([./-])([0-9]{1,2})\2([0-9]{4})", _numbered),
    _rule(
        r"([0-9]{4})[./-]([0-9]{1,2})[./-]([0-9]{1,2})",
        lambda f: f"{f[1]}-{int(f[2]):02}-{int(f[3]):02}",
    ),
    _rule(r"(?:the )?([0-9]{3})0'?s", _decade),
    _rule(r"(?:the decade )([0-9]{3})0-(?:\1)9", lambda f: f"{f[1]}X"),
    _rule(r"(?:the century )([0-9]{2})00-(?:\1)99", lambda f: f"{f[1]}XX"),
    _rule(r"(?:the )?([0-9]{1,2})(?:st|nd|rd|th) century", _century),
    _rule(
        rf"(?:the )?(spring|summer|fall|autumn|winter)(?: of| in|,| beginning in)? ({YEAR})"
        r"(?:[-/]([0-9]{2}|[0-9]{4}))?(?: \((northern|southern)\))?",
        _season,
    ),
    _rule(
        rf"(?:the )?(first|second|third|fourth|last|middle) (quarter|third|half){_IN}({YEAR})",
        _quarter,
    ),
    _rule(
        rf"({YEAR}) \(first (?:([0-9]+) )?figures? certain\)",
        lambda f: f"{_year(f[1])}S{f[2] or 1}",
    ),
)
