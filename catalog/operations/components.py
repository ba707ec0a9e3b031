"""Recording components with their other names, characteristics and mating rules."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any, Unpack

from django.core.exceptions import ValidationError
from django.db import models, transaction

from catalog.models import (
    Characteristic,
    Component,
    ComponentAlias,
    MatingRule,
    Member,
    Photo,
)
from catalog.operations.citing import Cited, parted, put_behind
from catalog.operations.photos import measuring_photo
from catalog.operations.picture_files import KeptPicture, PictureFile, keep_picture
from catalog.operations.record import change, record_new, remove
from catalog.operations.searching import index_record
from catalog.operations.slugs import unique_slug
from catalog.queries.components import ComponentNames, spelling

OtherName = tuple[str, str]


class Clearance(Cited, total=False):
    """What a mating rule may say besides the two characteristics, in mm, and the source."""

    least_mm: Decimal | None
    greatest_mm: Decimal | None
    worn_greatest_mm: Decimal | None
    is_required: bool
    note: str


@transaction.atomic
def record_component(values: Mapping[str, Any], *, by: Member) -> Component:
    """Record a component; only ``name`` is needed.

    ``aliases`` may hold pairs of another name and its usage (``"us"``, ``"uk"``, ``"works"``,
    ``"other"``). Refuse a name under which a component is known already.
    """
    names, plain = _named(values)
    _refuse_known_name(plain["name"])
    slug = unique_slug(Component, plain["name"])
    component = record_new(Component, {**plain, "slug": slug}, by=by)
    _set_aliases(component, names or (), by=by)
    return component


@transaction.atomic
def change_component(
    component: Component, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> Component:
    """Change a component; ``aliases``, where given, become all the other names it has.

    The address stays when the name changes. Refuse a loop in what is a kind of what, a name
    that another component has, and a record that has moved on since ``seen``.
    """
    names, plain = _named(values)
    # Two people could otherwise close a loop from both ends at the same moment.
    list(Component.objects.select_for_update().values_list("pk"))
    _refuse_known_name(plain.get("name", component.name), besides=component)
    change(component, plain, by=by, seen=seen)
    if names is not None:
        _set_aliases(component, names, by=by)
    return component


@transaction.atomic
def add_alias(
    component: Component, name: str, usage: str = ComponentAlias.Usage.OTHER, *, by: Member
) -> ComponentAlias:
    """Add another name for ``component``; refuse one that it has already.

    Two components may share an alias: a truck is one thing in America, another in Britain.
    """
    alias = _add_alias(component, name, usage, by=by)
    index_record(component)
    return alias


@transaction.atomic
def remove_alias(alias: ComponentAlias, *, by: Member) -> None:
    """Take another name off its component."""
    component = alias.component
    remove(alias, by=by, why=f"no longer called {alias}")
    index_record(component)


def add_characteristic(
    component: Component,
    *,
    name: str,
    where_to_measure: str = "",
    picture: Photo | None = None,
    file: PictureFile | None = None,
    by: Member,
) -> Characteristic:
    """Add a measurable feature, last in the order; refuse a name that is there already.

    The picture that shows where to measure is one of the component's, or new in ``file``.
    """
    kept = _kept(file) if file else None
    with transaction.atomic():
        last = component.characteristics.aggregate(last=models.Max("sequence"))["last"] or 0
        values = {
            "component": component,
            "name": name.strip(),
            "where_to_measure": where_to_measure.strip(),
            "picture": measuring_photo(component, kept, name, by=by) if kept else picture,
            "sequence": last + 1,
        }
        return record_new(Characteristic, values, by=by)


def change_characteristic(
    characteristic: Characteristic,
    values: Mapping[str, Any],
    *,
    file: PictureFile | None = None,
    by: Member,
    seen: int | None = None,
) -> Characteristic:
    """Change the name, the order, or where a characteristic is measured.

    A new picture in ``file`` takes the place of the one that showed it.
    """
    kept = _kept(file) if file else None
    with transaction.atomic():
        if kept:
            name = values.get("name", characteristic.name)
            shown = measuring_photo(characteristic.component, kept, name, by=by)
            values = {**values, "picture": shown}
        return change(characteristic, values, by=by, seen=seen)


@transaction.atomic
def remove_characteristic(characteristic: Characteristic, *, by: Member) -> None:
    """Remove a characteristic; refuse while limits, measurements or mating rules speak of it."""
    if MatingRule.objects.filter(
        models.Q(outer=characteristic) | models.Q(inner=characteristic)
    ).exists():
        raise ValidationError(
            f"A mating rule speaks of the {characteristic}. Remove the rule first."
        )
    remove(characteristic, by=by, why=f"characteristic removed: {characteristic}")


@transaction.atomic
def add_mating_rule(
    outer: Characteristic, inner: Characteristic, *, by: Member, **clearance: Unpack[Clearance]
) -> MatingRule:
    """Say which clearance, in mm, ``outer`` may have over ``inner``.

    ``least_mm``, ``greatest_mm`` (one of them at least), ``worn_greatest_mm``, ``is_required``
    (else advisory) and ``note``; ``source`` with ``locator`` is cited behind the rule. Refuse
    crossed limits and a second rule for the same two, either way round.
    """
    cited, told = parted(clearance)
    _refuse_reverse(outer, inner)
    rule = record_new(MatingRule, {"outer": outer, "inner": inner, **told}, by=by)
    put_behind(rule, cited, by=by)
    return rule


@transaction.atomic
def change_mating_rule(
    rule: MatingRule, values: Mapping[str, Any], *, by: Member, seen: int | None = None
) -> MatingRule:
    """Change a mating rule; a ``source`` given is cited besides those there are."""
    cited, told = parted(values)
    _refuse_reverse(told.get("outer", rule.outer), told.get("inner", rule.inner), besides=rule)
    change(rule, told, by=by, seen=seen)
    put_behind(rule, cited, by=by)
    return rule


@transaction.atomic
def remove_mating_rule(rule: MatingRule, *, by: Member) -> None:
    """Remove a mating rule with its citations."""
    remove(rule, by=by, why=f"mating rule removed: {rule}")


def _named(values: Mapping[str, Any]) -> tuple[Iterable[OtherName] | None, dict[str, Any]]:
    plain = dict(values)
    names = plain.pop("aliases", None)
    if "name" in plain:
        plain["name"] = " ".join(str(plain["name"]).split())
    return names, plain


def _refuse_known_name(name: str, besides: Component | None = None) -> None:
    for known in ComponentNames.gather().called(name):
        if known == besides:
            continue
        if spelling(known.name) == spelling(name):
            raise ValidationError({"name": f"There is already a component called {known}."})
        raise ValidationError(
            {
                "name": f"“{name}” is known as {known} here. If yours is another piece, say so in "
                f"the name, such as {name} (tender)."
            }
        )
    if besides is None and Component.objects.withdrawn().filter(name__iexact=name).exists():
        raise ValidationError(
            {"name": f"A component called {name} was withdrawn. Bring it back from its history."}
        )


def _add_alias(component: Component, name: str, usage: str, *, by: Member) -> ComponentAlias:
    plain = " ".join(name.split())
    if spelling(plain) == spelling(component.name):
        raise ValidationError({"aliases": f"“{plain}” is the name it has already."})
    values = {"component": component, "name": plain, "usage": usage}
    return record_new(ComponentAlias, values, by=by, why=f"also called {plain}")


def _set_aliases(component: Component, wanted: Iterable[OtherName], *, by: Member) -> None:
    there = {alias.name.casefold(): alias for alias in component.aliases.all()}
    for name, usage in wanted:
        alias = there.pop(name.casefold(), None)
        if alias is None:
            _add_alias(component, name, usage, by=by)
        elif (alias.name, alias.usage) != (name, usage):
            change(alias, {"name": name, "usage": usage}, by=by, why=f"also called {name}")
    for alias in there.values():
        remove(alias, by=by, why=f"no longer called {alias}")
    index_record(component)


def _refuse_reverse(
    outer: Characteristic, inner: Characteristic, besides: MatingRule | None = None
) -> None:
    # Two people could otherwise write the two directions at the same moment.
    list(Characteristic.objects.select_for_update().filter(pk__in=[outer.pk, inner.pk]))
    known = MatingRule.objects.filter(outer=inner, inner=outer)
    if besides is not None:
        known = known.exclude(pk=besides.pk)
    if rule := known.select_related("outer__component", "inner__component").first():
        words = f"There is already a rule for these two, the other way round: {rule.in_full}."
        raise ValidationError({"inner": f"{words} Change that one."})


def _kept(file: PictureFile) -> KeptPicture:
    try:
        return keep_picture(file)
    except ValidationError as refusal:
        raise ValidationError({"file": refusal.messages}) from refusal
