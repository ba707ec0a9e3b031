"""Say an Extended Date/Time Format value in plain American English."""

from catalog.reckoning.edtf_calendar import MONTH_NAMES, Day, day_after
from catalog.reckoning.edtf_grammar import Atom, End, Expression, Span

SEASONS = ("spring", "summer", "fall", "winter")
ORDINALS = ("first", "second", "third", "fourth")
UNKNOWN_FIGURE = "(X stands for an unknown figure)"
_DOUBTS = {"?": "uncertain", "~": "approximate", "?~": "uncertain and approximate"}
_PREFIXES = {"": "", "?": "perhaps ", "~": "about ", "?~": "perhaps about "}


def phrase(value: Expression) -> str:
    """Say the whole value; what is said can be read back to the same days.

    >>> from catalog.reckoning.edtf_grammar import read_edtf
    >>> phrase(read_edtf("1898/1903~"))
    'some time between 1898 and about 1903'
    """
    if value.kind == "date":
        return _atom_phrase(value.spans[0].start)
    if value.kind == "interval":
        return _within(value.spans[0])
    return _one_of(value.spans) if value.kind == "one of" else _all_of(value.spans)


def day_phrase(day: Day) -> str:
    """Say a day, or only its year or month if the day is the first of that.

    Used where a boundary is named: “before 1902” says as much as “before 1 January 1902”.

    >>> day_phrase((1956, 6, 1)), day_phrase((1902, 1, 1)), day_phrase((1881, 6, 14))
    ('June 1956', '1902', '14 June 1881')
    """
    year, month, number = day
    if number > 1:
        return f"{number} {MONTH_NAMES[month]} {year_phrase(year)}"
    return f"{MONTH_NAMES[month]} {year_phrase(year)}" if month > 1 else year_phrase(year)


def year_phrase(year: int) -> str:
    """Say a year; the year before AD 1 is 1 BC and is counted as 0.

    >>> year_phrase(1902), year_phrase(44), year_phrase(-1985)
    ('1902', 'AD 44', '1986 BC')
    """
    if year < 1:
        return f"{1 - year} BC"
    return str(year) if 1000 <= year <= 9999 else f"AD {year}"


def _within(span: Span) -> str:
    if isinstance(span.start, End) or isinstance(span.end, End):
        return _half_known(span)
    return f"some time between {_atom_phrase(span.start)} and {_atom_phrase(span.end)}"


def _half_known(span: Span) -> str:
    if span.start is End.UNKNOWN:
        return f"some time between an unknown date and {_atom_phrase(span.end)}"
    if span.end is End.UNKNOWN:
        return f"some time between {_atom_phrase(span.start)} and an unknown date"
    return _earlier(span.end) if span.start is End.OPEN else f"{_atom_phrase(span.start)} or later"


def _earlier(end: Atom | End) -> str:
    if isinstance(end, Atom) and end.is_plain and end.last:
        return f"before {day_phrase(day_after(end.last))}"
    return f"{_atom_phrase(end)} or earlier"


def _one_of(spans: tuple[Span, ...]) -> str:
    if len(spans) == 1:
        return _atom_phrase(spans[0].start) if _is_single(spans[0]) else _within(spans[0])
    if all(_is_single(span) for span in spans):
        return _listed([_atom_phrase(span.start) for span in spans], "or")
    return "one of these: " + "; ".join(_member(span) for span in spans)


def _all_of(spans: tuple[Span, ...]) -> str:
    if len(spans) > 1:
        return "all of these: " + "; ".join(_member(span) for span in spans)
    start, end = spans[0].start, spans[0].end
    if start is End.OPEN:
        return f"until {_atom_phrase(end)}"
    if end is End.OPEN:
        return f"since {_atom_phrase(start)}"
    if _is_single(spans[0]):
        return f"all of {_atom_phrase(start)}"
    return f"from {_atom_phrase(start)} to {_atom_phrase(end)}"


def _is_single(span: Span) -> bool:
    return span.start == span.end


def _member(span: Span) -> str:
    if _is_single(span):
        return _atom_phrase(span.start)
    if isinstance(span.start, End) or isinstance(span.end, End):
        return _half_open(span)
    return f"{_atom_phrase(span.start)} to {_atom_phrase(span.end)}"


def _half_open(span: Span) -> str:
    if isinstance(span.start, Atom):
        return f"{_atom_phrase(span.start)} or later"
    return f"{_atom_phrase(span.end)} or earlier"


def _listed(words: list[str], joint: str) -> str:
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"


def _atom_phrase(atom: Atom | End) -> str:
    if isinstance(atom, End):
        return "an unknown date"
    core = _core(atom)
    if len(set(atom.marks)) == 1:
        return _PREFIXES[atom.marks[0]] + core
    units = zip(("year", "month", "day"), atom.marks, strict=False)
    doubts = [f"{unit} {_DOUBTS[mark]}" for unit, mark in units if mark]
    return f"{core} ({', '.join(doubts)})"


def _core(atom: Atom) -> str:
    if atom.clock:
        zone = {"": "", "Z": " UTC"}.get(atom.zone, f" UTC{atom.zone}")
        return f"{_plain_phrase(atom)} at {atom.clock}{zone}"
    if atom.significant:
        figures = "figure" if atom.significant == 1 else f"{atom.significant} figures"
        return f"{year_phrase(int(atom.year))} (first {figures} certain)"
    if atom.month > "12" and "X" not in atom.month:
        return _season_phrase(atom)
    return _masked_phrase(atom) if "X" in atom.text else _plain_phrase(atom)


def _plain_phrase(atom: Atom) -> str:
    words = [str(int(atom.day))] if atom.day else []
    words += [MONTH_NAMES[int(atom.month)]] if atom.month else []
    return " ".join([*words, year_phrase(int(atom.year))])


def _masked_phrase(atom: Atom) -> str:
    year, month, day = atom.year, atom.month, atom.day
    fallback = f"{year}{month and '-'}{month}{day and '-'}{day} {UNKNOWN_FIGURE}"
    if len(year) > 4 or ("X" in month + day and "XX" not in month + day):
        return fallback
    if not month:
        return _masked_year(year) or fallback
    ending = {"XXXX": ", year unknown"}.get(year, f" {_simple_year(year)}")
    if month == "XX":
        unit = {"": "some month", "XX": "some day"}.get(day)
        return f"{unit} of{ending}" if unit and year != "XXXX" else fallback
    if "X" in month:
        return fallback
    before = {"": "", "XX": "some day in "}.get(day, f"{day.lstrip('0')} ")
    return f"{before}{MONTH_NAMES[int(month)]}{ending}"


def _simple_year(year: str) -> str:
    return year if "X" in year else year_phrase(int(year))


def _masked_year(year: str) -> str:
    """Say a decade or a century; other masks have no everyday words."""
    if "X" in year[:2] or year[3] != "X":
        return ""
    if year[2] == "X":
        return f"the century {year[:2]}00–{year[:2]}99"
    if year[2] == "0":
        return f"the decade {year[:3]}0–{year[:3]}9"
    return f"the {year[:3]}0s" if year[0] != "0" else ""


def _season_phrase(atom: Atom) -> str:
    code, year = int(atom.month), atom.year
    masked = "X" in year
    named = year if masked else year_phrase(int(year))
    if code > 32:
        return f"the {_part_of_year(code)} of {named}"
    half = {0: "", 1: " (northern)", 2: " (southern)"}[(code - 21) // 4]
    season = SEASONS[(code - 21) % 4]
    if (code not in (24, 28, 30)) or atom.last is None:
        return f"{season} {named}{half}"
    if masked or not 1000 <= int(year) <= 9998:
        return f"{season} beginning in {named}{half}"
    following = str(int(year) + 1)
    short = following[2:] if following[:2] == year[:2] else following
    return f"{season} {year}–{short}{half}"


def _part_of_year(code: int) -> str:
    if code < 37:
        return f"{ORDINALS[code - 33]} quarter"
    return f"{ORDINALS[code - 37]} third" if code < 40 else f"{ORDINALS[code - 40]} half"
