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
from catalog.reckoning.length_texts import rounded
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

    A limit from the original size needs ``original_mm``; one from the gauge takes that of the
    class; one between two sizes needs ``other``, a characteristic of the same component, and
    becomes a mating rule. The document is recorded as a source once. It is taken over as a
    reference, and the note says that it does not call anything safe. Refuse limits that are
    there already.
    """
    limit = PUBLISHED.get(code)
    if limit is None:
        raise ValidationError(f"There is no published limit called {code}.")
    cited = {"source": _source(limit, by=by), "locator": limit.section, "note": REFERENCE_ONLY}
    if limit.shape == Shape.DIFFERENCE:
        return _adopt_difference(limit, characteristic, applied.get("other"), by=by, cited=cited)
    try:
        ends = limit.ends(_base(limit, vehicle_class, applied.get("original_mm")))
    except PublishedLimitError as problem:
        raise ValidationError({_field(limit): str(problem)}) from problem
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


def _base(
    limit: PublishedLimit, vehicle_class: VehicleClass, original_mm: Decimal | None
) -> Fraction | None:
    base = vehicle_class.gauge_mm if limit.shape == Shape.FROM_GAUGE else original_mm
    return None if base is None else Fraction(base)


def _field(limit: PublishedLimit) -> str:
    return "published" if limit.shape == Shape.FROM_GAUGE else "original_mm"


def _source(limit: PublishedLimit, *, by: Member) -> Source:
    """Return the document as a source, recorded when it is cited for the first time."""
    known = Source.objects.kept().filter(title=limit.document).first()
    if known is not None:
        return known
    values = {"kind": Source.Kind.REGULATION, "title": limit.document}
    return record_source(values, by=by)


def _decimal(mm: Fraction | None) -> Decimal | None:
    return None if mm is None else rounded(mm, 9)
