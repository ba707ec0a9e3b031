"""Guess which column of a group's own spreadsheet means what."""

import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence

from catalog.reckoning.codes import is_valid_tag_code

IGNORE = "ignore"
REMARK = "remark"

# Headings as groups write them, American and British, long and short; common practice,
# no source. Where two claims are equal the field named first has it.
_HEADINGS: Mapping[str, str] = {
    "component": "component|component name|part name|kind|kind of part|type|type of part|"
    "part type|piece|casting|object|object name|article",
    "description": "description|desc|descr|descrip|details|detail|what|what is it|"
    "what it is|item description|part description|description of item|description of part",
    "number": "no|nr|num|number|id|part no|part nr|part number|item no|item number|"
    "accession|accession no|accession nr|accession number|acc no|acc nr|acc|catalog no|"
    "catalog number|catalogue no|catalogue number|cat no|object no|object number|ref|"
    "ref no|reference|reference no|register no|stock no|inventory no|inventory number",
    "tag": "tag|tag no|tag nr|tag number|tag code|code|label|label no|qr|qr code|barcode",
    "quantity": "quantity|qty|qnty|quant|count|counted|how many|off|no off|nr off|"
    "number off|pcs|pieces|number of|no of|amount|total|nos",
    "material": "material|materials|mat|matl|metal|made of|made from|alloy",
    "condition": "condition|cond|state|state of repair|damage|defects|faults|wear",
    "usability": "usability|usable|useable|use|can it be used|serviceable|serviceability|"
    "fit for use|status|assessment|ready",
    "location": "location|loc|locn|place|where|where is it|where kept|whereabouts|kept|"
    "shelf|bin|box|crate|rack|bay|drawer|pallet|store|stored|stored at|stored in|storage",
    "marks": "marks|mark|markings|marking|inscription|inscriptions|stamp|stamps|stamped|"
    "cast mark|cast marks|casting mark|casting marks|casting no|casting number|lettering|"
    "letters|pattern no|pattern number|maker s mark|foundry mark",
    "survives": "survives|survival|how much|how much survives|how much is left|"
    "completeness|complete|percent|percent complete|fraction|portion|proportion|share",
    REMARK: "remark|remarks|note|notes|comment|comments|observations|memo|misc|other|info|"
    "information|further information",
    "donor": "donor|donated by|given by|gift of|from|source|came from|origin|received from",
    "dimensions": "dimensions|dimension|dims|dim|size|sizes|measurements|dia|diam|diameter|"
    "bore|length|width|height|thickness|centers|centres|bolt centers|bolt centres",
    "mass": "mass|weight|wt|kg|lb|lbs",
    "date": "date|date received|received|date in|acquired",
    IGNORE: "problem|problems|row|line",
}
# Headings that say little: they count for less, so that the cells below can decide.
_VAGUE: Mapping[str, tuple[int, str]] = {
    "component": (6, "item|items|part|parts|name"),
    "description": (6, "item|items|part|parts|name"),
    "number": (3, "item|part"),
    "quantity": (3, "no|nr|nos|number"),
}
_EXACT, _PARTLY, _ENOUGH = 10, 5, 4
_SURE_FROM_CELLS = 8
_ACCESSION = re.compile(r"\d{4}\.\d+(\.\d+)?[a-z]*")
_UNNAMED = re.compile(r"(column \d+)?")
_CELLS_TO_JUDGE_BY = 200


def _phrases(joined: str) -> frozenset[str]:
    return frozenset(joined.split("|"))


_KNOWN = {field: _phrases(joined) for field, joined in _HEADINGS.items()}
_KNOWN_VAGUE = {field: _phrases(joined) for field, (_, joined) in _VAGUE.items()}


def guess_columns(
    header: Sequence[str], rows: Iterable[Sequence[str]], fields: Collection[str]
) -> dict[int, str]:
    """Map every column to one of ``fields``, judged by its heading and its cells.

    No field is given twice, but for ``remark``, which gathers what is understood and
    has no field of its own (a donor, a second location); the importer joins these.
    What is not understood becomes ``ignore``.
    """
    columns = _columns(len(header), rows)
    claims = _claims(header, columns)
    guesses: dict[int, str] = {}
    for _, index, field in claims:
        is_free = field == IGNORE or (field in fields and field not in guesses.values())
        if is_free and index not in guesses:
            guesses[index] = field
    leftover = REMARK if REMARK in fields else IGNORE
    understood = {index for _, index, _ in claims}
    return {
        index: guesses.get(index, leftover if index in understood else IGNORE)
        for index in range(len(header))
    }


def _claims(header: Sequence[str], columns: list[list[str]]) -> list[tuple[int, int, str]]:
    """List what each column may mean as (score, column, field), the surest first."""
    claims = (
        (
            _heading_score(field, heading) + _cells_score(field, heading, columns[index]),
            index,
            field,
        )
        for index, heading in enumerate(header)
        for field in _KNOWN
    )
    sure_enough = [claim for claim in claims if claim[0] >= _ENOUGH]
    return sorted(sure_enough, key=lambda claim: (-claim[0], claim[1]))


def is_heading(cell: str) -> bool:
    """Tell whether ``cell`` is a heading that groups commonly use."""
    heading = _plain(cell)
    return any(heading in phrases for phrases in (*_KNOWN.values(), *_KNOWN_VAGUE.values()))


def _columns(width: int, rows: Iterable[Sequence[str]]) -> list[list[str]]:
    columns: list[list[str]] = [[] for _ in range(width)]
    for _, row in zip(range(_CELLS_TO_JUDGE_BY), rows, strict=False):
        for cells, cell in zip(columns, row, strict=False):
            if cell:
                cells.append(cell)
    return columns


def _plain(heading: str) -> str:
    """Reduce a heading to its words; a lone ``#`` means a number, ``%`` a share."""
    spelled = heading.casefold().replace("#", " no ").replace("%", " percent ")
    return " ".join(re.findall(r"[^\W_]+", spelled))


def _heading_score(field: str, heading: str) -> int:
    plain = _plain(heading)
    if plain in _KNOWN[field]:
        return _EXACT
    if plain in _KNOWN_VAGUE.get(field, ()):
        return _VAGUE[field][0]
    held = any(f" {phrase} " in f" {plain} " for phrase in _KNOWN[field] if len(phrase) > 2)
    return _PARTLY if held else 0


def _cells_score(field: str, heading: str, cells: list[str]) -> int:
    """Return what the cells say for ``field``, or against it when below 0."""
    judge = _JUDGES.get(field)
    if judge is None or not cells:
        return 0
    score = judge(cells)
    is_unnamed = _UNNAMED.fullmatch(heading.casefold()) is not None
    # A heading that we do not know still means something else than its cells look like,
    # unless the cells can mean one thing only.
    return score + 2 if is_unnamed and score > 0 else score


def _share(cells: list[str], is_such: Callable[[str], object]) -> float:
    return sum(1 for cell in cells if is_such(cell)) / len(cells)


def _is_count(cell: str) -> bool:
    return cell.isascii() and cell.isdigit() and len(cell) <= 4


def _judge_number(cells: list[str]) -> int:
    if _share(cells, _ACCESSION.fullmatch) > 0.8:
        return _SURE_FROM_CELLS
    if len(set(cells)) < len(cells):
        return -5
    return 2 if _share(cells, lambda cell: any(map(str.isdigit, cell))) > 0.8 else 0


def _judge_quantity(cells: list[str]) -> int:
    is_repeating = len(set(cells)) < len(cells)
    return 3 if is_repeating and _share(cells, _is_count) > 0.8 else 0


def _judge_tag(cells: list[str]) -> int:
    return _SURE_FROM_CELLS if _share(cells, is_valid_tag_code) > 0.8 else 0


def _judge_description(cells: list[str]) -> int:
    is_wordy = sum(len(cell.split()) for cell in cells) / len(cells) >= 2.5
    return 3 if is_wordy else _judge_component(cells)


def _judge_component(cells: list[str]) -> int:
    return -3 if _share(cells, _is_count) > 0.8 else 0


_JUDGES: Mapping[str, Callable[[list[str]], int]] = {
    "number": _judge_number,
    "quantity": _judge_quantity,
    "tag": _judge_tag,
    "description": _judge_description,
    "component": _judge_component,
}
