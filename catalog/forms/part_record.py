"""The empty forms on the record of a part, drawn once and shown until what they offer changes.

They are the same for every part of a component, and drawing them anew would take half of the
time that a record takes.
"""

from functools import cache

from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from catalog.forms.parts import IdentifyForm, MarkForm, MeasurementForm, SplitForm
from catalog.models import (
    Characteristic,
    Component,
    ComponentAlias,
    Instrument,
    Part,
    Photo,
    VehicleClass,
)
from catalog.queries.measuring_pictures import pictures_of_part
from catalog.queries.remembered import remembered


def identify_form() -> SafeString:
    offered = (Component, ComponentAlias, VehicleClass)
    return remembered("identify form", offered, lambda: IdentifyForm(prefix="identify").render())


@cache
def mark_form() -> SafeString:
    return MarkForm(prefix="mark").render()


@cache
def split_form(usability: str) -> SafeString:
    return SplitForm(prefix="split", initial={"usability": usability}).render()


def measurement_form(part: Part) -> SafeString:
    return where_to_measure(part) + remembered(
        f"measurement form {part.component_id}",
        (Component, Characteristic, Instrument),
        lambda: MeasurementForm(part=part, prefix="measurement").render(),
    )


def where_to_measure(part: Part) -> SafeString:
    """Draw the pictures that show where the characteristics of the part are measured."""
    return remembered(
        f"where to measure {part.component_id}",
        (Component, Characteristic, Photo),
        lambda: render_to_string(
            "catalog/components/_where_to_measure.html", {"pictures": pictures_of_part(part)}
        ),
    )
