"""Taking over a published limit for a class, with its section cited behind it."""

from decimal import Decimal
from fractions import Fraction
from typing import TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction

from catalog.models import Characteristic, MatingRule, Member, Source, Specification, VehicleClass
from catalog.operations.components import add_mating_rule
from catalog.operations.sources import record_source
from catalog.operations.specifications import add_specification
from catalog.reckoning.length_texts import plain_decimal, rounded
from catalog.reckoning.published_limits import (
    PUBLISHED,
    REFERENCE_ONLY,
    PublishedLimit,
    PublishedLimitError,
    Shape,
)


class Applied(TypedDict, total=False):
    """What a published limit is applied to besides its first characteristic."""

    other: Characteristic | None
    original_mm: Decimal | None
    tolerance_mm: Decimal | None
    wear_mm: Decimal | None


@transaction.atomic
def adopt_published_limit(
    vehicle_class: VehicleClass,
    code: str,
    characteristic: Characteristic,
    *,
    by: Member,
    **applied: Unpack[Applied],
) -> Specification | MatingRule:
    """Take the published limit ``code`` over for ``characteristic`` of a class, and cite it.

    A size as new needs ``tolerance_mm``, for the tables give none, and may have ``wear_mm``; the
    note says that both are the group's own. A limit from the original size needs ``original_mm``;
    one from the gauge takes that of the class; one between two sizes needs ``other``, a
    characteristic of the same component, and becomes a mating rule. The document is recorded as a
    source once. It is taken over as a reference, and the note says that it does not call anything
    safe. Refuse limits that are there already.
    """
    limit = PUBLISHED.get(code)
    if limit is None:
        raise ValidationError(f"There is no published limit called {code}.")
    cited = {"source": _source(limit, by=by), "locator": limit.section, "note": REFERENCE_ONLY}
    if limit.shape == Shape.DIFFERENCE:
        return _adopt_difference(limit, characteristic, applied.get("other"), by=by, cited=cited)
    tolerance, wear = _fraction(applied.get("tolerance_mm")), _fraction(applied.get("wear_mm"))
    base = _base(limit, vehicle_class, applied.get("original_mm"))
    try:
        ends = limit.ends(base, tolerance_mm=tolerance, wear_mm=wear)
    except PublishedLimitError as problem:
        raise ValidationError({_field(limit, problem): str(problem)}) from problem
    cited["note"] = f"{REFERENCE_ONLY} {_own_choice(limit, tolerance, wear)}".strip()
    return add_specification(
        vehicle_class=vehicle_class,
        characteristic=characteristic,
        lower_mm=_decimal(ends.lower),
        upper_mm=_decimal(ends.upper),
        worn_lower_mm=_decimal(ends.worn_lower),
        worn_upper_mm=_decimal(ends.worn_upper),
        by=by,
        **cited,  # type: ignore[arg-type]
    )


def _adopt_difference(
    limit: PublishedLimit,
    one: Characteristic,
    other: Characteristic | None,
    *,
    by: Member,
    cited: dict[str, object],
) -> MatingRule:
    if other is None or other.component_id != one.component_id or other == one:
        raise ValidationError(
            {
                "other": f"{limit.section} holds two sizes of one piece against each other: choose "
                f"another characteristic of the {one.component}."
            }
        )
    ends = limit.ends()
    return add_mating_rule(
        one,
        other,
        least_mm=_decimal(ends.lower),
        greatest_mm=_decimal(ends.upper),
        by=by,
        **cited,  # type: ignore[arg-type]
    )


def _own_choice(limit: PublishedLimit, tolerance: Fraction | None, wear: Fraction | None) -> str:
    if tolerance is None or not limit.has_no_tolerance:
        return ""
    added = f"The ± {_short(tolerance)} as new"
    if wear is not None and limit.shape == Shape.NOMINAL:
        return f"{added} and the wear of {_short(wear)} are the group's own."
    return f"{added} is the group's own."


def _short(mm: Fraction) -> str:
    return f"{plain_decimal(rounded(mm, 3))} mm"


def _base(
    limit: PublishedLimit, vehicle_class: VehicleClass, original_mm: Decimal | None
) -> Fraction | None:
    return _fraction(vehicle_class.gauge_mm if limit.shape == Shape.FROM_GAUGE else original_mm)


def _fraction(mm: Decimal | None) -> Fraction | None:
    return None if mm is None else Fraction(mm)


def _field(limit: PublishedLimit, problem: PublishedLimitError) -> str:
    """Return the field that the problem is with; the gauge is no field here."""
    fields = {"tolerance": "tolerance_mm", "wear": "wear_mm", "base": "original_mm"}
    return "published" if limit.shape == Shape.FROM_GAUGE else fields[problem.of]


def _source(limit: PublishedLimit, *, by: Member) -> Source:
    """Return the document as a source, recorded when it is cited for the first time."""
    known = Source.objects.kept().filter(title=limit.document).first()
    if known is not None:
        return known
    values = {"kind": Source.Kind.REGULATION, "title": limit.document}
    return record_source(values, by=by)


def _decimal(mm: Fraction | None) -> Decimal | None:
    return None if mm is None else rounded(mm, 9)
