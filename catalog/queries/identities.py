"""What tells a vehicle or part from all others, in the nine categories of Object ID.

The categories are those of R. Thornes, P. Dorrell and H. Lie, Introduction to Object ID, Getty
Information Institute, 1999; the photographs that they are to go with stand elsewhere on a sheet.
"""

from collections.abc import Iterable, Sequence

from catalog.models import Deviation, Measurement, Part, PartMark, Vehicle, VehicleClass
from catalog.queries.ages import Age
from catalog.queries.party_names import builder_named
from catalog.reckoning.length_texts import format_gauge, format_inches, format_mm

CATEGORIES = (
    "Type of object",
    "Materials and techniques",
    "Measurements",
    "Inscriptions and markings",
    "Distinguishing features",
    "Title",
    "Subject",
    "Date or period",
    "Maker",
)
MARKS_SHOWN = 8
Identity = tuple[tuple[str, str], ...]


def identity_of_vehicle(
    vehicle: Vehicle,
    parts: Sequence[Part],
    *,
    age: Age,
    differences: Iterable[Deviation],
    for_visitor: bool = False,
    built: str = "",
) -> Identity:
    """Return the nine categories of a vehicle; materials and marks are those of ``parts``.

    ``built`` is when its story says that it was built, in words.
    """
    built_to = vehicle.vehicle_class
    return _filled(
        _joined(built_to.name, built_to.designation),
        _materials(parts),
        _joined(_gauge(built_to), built_to.wheel_arrangement and f"{built_to.wheel_arrangement}"),
        _inscriptions(vehicle, parts),
        "; ".join(row.reason for row in differences),
        _joined(vehicle.label, vehicle.name if vehicle.name != vehicle.label else ""),
        "depicts nothing",
        vehicle.date_text or built or age.made.when,
        builder_named(built_to, for_visitor=for_visitor),
    )


def identity_of_part(
    part: Part, *, age: Age, measurements: Iterable[Measurement], for_visitor: bool = False
) -> Identity:
    """Return the nine categories of a part; free words of the intake are not for visitors."""
    measured = [_measured(one) for one in measurements]
    mass = f"{float(part.mass_kg):g} kg" if part.mass_kg else ""
    built_to = part.vehicle_class
    maker = builder_named(built_to, for_visitor=for_visitor) if built_to else ""
    return _filled(
        _joined(str(part.component or ""), part.get_identification_status_display()),
        part.material,
        "; ".join([*measured, *filter(None, [mass])]),
        "; ".join(f"“{mark.text}”, {mark.get_manner_display()}" for mark in part.marks.all()),
        "; ".join(filter(None, [part.defect, part.condition])),
        "" if for_visitor else part.description,
        "depicts nothing",
        age.made.when,
        f"not known; vehicles of its class were built by {maker}" if maker else "",
    )


def _measured(one: Measurement) -> str:
    """Say a measurement as it was read, and in the other system beside it."""
    is_metric = one.text.endswith("m")
    other = format_inches(one.value_mm) if is_metric else format_mm(one.value_mm)
    return f"{one.name} {one.text} ({other})"


def _filled(*told: str) -> Identity:
    return tuple(
        (category, words or "not recorded")
        for category, words in zip(CATEGORIES, told, strict=True)
    )


def _joined(*words: str) -> str:
    return ", ".join(filter(None, words))


def _gauge(built_to: VehicleClass) -> str:
    gauge = format_gauge(built_to.gauge_mm) if built_to.gauge_mm else built_to.gauge_text
    return f"gauge {gauge}" if gauge else ""


def _materials(parts: Sequence[Part]) -> str:
    named = list(dict.fromkeys(part.material for part in parts if part.material))
    return f"{', '.join(named)} (of the parts recorded)" if named else ""


def _inscriptions(vehicle: Vehicle, parts: Sequence[Part]) -> str:
    own = [
        vehicle.running_number and f"running number {vehicle.running_number}",
        vehicle.works_number and f"works number {vehicle.works_number}",
    ]
    marks = PartMark.objects.filter(part__in=parts).select_related("part")[:MARKS_SHOWN]
    on_parts = [f"“{mark.text}” on {mark.part}" for mark in marks]
    return "; ".join(filter(None, [*own, *on_parts]))
