"""Factories of components, classes and the vehicles built to them."""

from decimal import Decimal

import factory
from factory.django import DjangoModelFactory

from catalog import models


class ComponentFactory(DjangoModelFactory):
    class Meta:
        model = models.Component

    name = factory.Sequence(lambda n: f"component {n}")
    slug = factory.LazyAttribute(lambda made: made.name.replace(" ", "-"))


class ComponentAliasFactory(DjangoModelFactory):
    class Meta:
        model = models.ComponentAlias

    component = factory.SubFactory(ComponentFactory)
    name = factory.Sequence(lambda n: f"alias {n}")


class CharacteristicFactory(DjangoModelFactory):
    class Meta:
        model = models.Characteristic

    component = factory.SubFactory(ComponentFactory)
    name = factory.Sequence(lambda n: f"diameter {n}")


class MatingRuleFactory(DjangoModelFactory):
    class Meta:
        model = models.MatingRule

    outer = factory.SubFactory(CharacteristicFactory)
    inner = factory.SubFactory(CharacteristicFactory)
    least_mm = Decimal(0)


class VehicleClassFactory(DjangoModelFactory):
    class Meta:
        model = models.VehicleClass

    designation = factory.Sequence(lambda n: f"Class {n}")
    slug = factory.LazyAttribute(lambda made: made.designation.lower().replace(" ", "-"))


class VehicleFactory(DjangoModelFactory):
    class Meta:
        model = models.Vehicle

    label = factory.Sequence(lambda n: f"Wagon {n + 101}")
    slug = factory.LazyAttribute(lambda made: made.label.lower().replace(" ", "-"))
    vehicle_class = factory.SubFactory(VehicleClassFactory)


class PositionFactory(DjangoModelFactory):
    class Meta:
        model = models.Position

    vehicle_class = factory.SubFactory(VehicleClassFactory)
    component = factory.SubFactory(ComponentFactory)
    code = factory.Sequence(lambda n: f"P{n}")


class SpecificationFactory(DjangoModelFactory):
    class Meta:
        model = models.Specification

    vehicle_class = factory.SubFactory(VehicleClassFactory)
    characteristic = factory.SubFactory(CharacteristicFactory)
    lower_mm = Decimal("63.0")
    upper_mm = Decimal("64.0")


class DeviationFactory(DjangoModelFactory):
    class Meta:
        model = models.Deviation

    vehicle = factory.SubFactory(VehicleFactory)
    kind = models.Deviation.Kind.NOTED
    reason = "built with another lubricator"
