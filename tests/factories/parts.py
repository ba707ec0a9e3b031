"""Factories of parts and what is known of them."""

from decimal import Decimal

import factory
from factory.django import DjangoModelFactory

from catalog import models
from tests.factories.kinds import ComponentFactory, PositionFactory, VehicleFactory
from tests.factories.moments import LONG_AGO
from tests.factories.people import MemberFactory


class AccessionFactory(DjangoModelFactory):
    class Meta:
        model = models.Accession

    year = 2026
    serial = factory.Sequence(lambda n: n + 1)


class StatedLineFactory(DjangoModelFactory):
    class Meta:
        model = models.StatedLine

    accession = factory.SubFactory(AccessionFactory)
    text = "about ten hinges"


class LocationFactory(DjangoModelFactory):
    class Meta:
        model = models.Location
        skip_postgeneration_save = True

    name = factory.Sequence(lambda n: f"Shelf {n + 101}")
    path = factory.SelfAttribute("name")

    @factory.post_generation
    def trace(self, create, extracted, **kwargs):
        if create:
            above = self.parent.lineage if self.parent else "/"
            self.lineage = f"{above}{self.pk}/"
            self.save(update_fields=["lineage"])


class PartFactory(DjangoModelFactory):
    class Meta:
        model = models.Part

    description = factory.Sequence(lambda n: f"casting {n}")
    number = factory.Sequence(lambda n: f"2026.900.{n + 1}")
    number_sort = factory.Sequence(lambda n: f"2026.00900.{n + 1:06d}")
    recorded_at = LONG_AGO
    recorded_by = factory.SubFactory(MemberFactory)


class PartMarkFactory(DjangoModelFactory):
    class Meta:
        model = models.PartMark

    part = factory.SubFactory(PartFactory)
    text = "T.I. 2?7"


class InstrumentFactory(DjangoModelFactory):
    class Meta:
        model = models.Instrument
        django_get_or_create = ("slug",)

    slug = factory.Sequence(lambda n: f"rule-{n}")
    name = factory.SelfAttribute("slug")
    uncertainty_mm = Decimal("0.25")


class MeasurementFactory(DjangoModelFactory):
    class Meta:
        model = models.Measurement

    part = factory.SubFactory(PartFactory)
    name = "journal diameter"
    text = "2 1/2 in"
    value_mm = Decimal("63.5")
    resolution_mm = Decimal("0.79375")
    uncertainty_mm = Decimal("0.25")
    measured_at = LONG_AGO
    measured_by = factory.SubFactory(MemberFactory)


class IdentificationFactory(DjangoModelFactory):
    class Meta:
        model = models.Identification

    part = factory.SubFactory(PartFactory)
    component = factory.SubFactory(ComponentFactory)
    made_at = LONG_AGO
    made_by = factory.SubFactory(MemberFactory)


class OpinionFactory(DjangoModelFactory):
    class Meta:
        model = models.Opinion

    identification = factory.SubFactory(IdentificationFactory)
    agrees = True
    made_at = LONG_AGO
    made_by = factory.SubFactory(MemberFactory)


class FittingFactory(DjangoModelFactory):
    class Meta:
        model = models.Fitting

    vehicle = factory.SubFactory(VehicleFactory)
    position = factory.SubFactory(
        PositionFactory, vehicle_class=factory.SelfAttribute("..vehicle.vehicle_class")
    )
    part = factory.SubFactory(PartFactory)
    state = models.Fitting.State.FITTED
    begun_at = LONG_AGO
    changed_at = LONG_AGO
    changed_by = factory.SubFactory(MemberFactory)


class TrialFactory(DjangoModelFactory):
    class Meta:
        model = models.Trial

    part = factory.SubFactory(PartFactory)
    vehicle = factory.SubFactory(VehicleFactory)
    position = factory.SubFactory(
        PositionFactory, vehicle_class=factory.SelfAttribute("..vehicle.vehicle_class")
    )
    outcome = models.Trial.Outcome.WENT
    tried_at = LONG_AGO
    tried_by = factory.SubFactory(MemberFactory)


class RemovalFactory(DjangoModelFactory):
    class Meta:
        model = models.Removal

    vehicle = factory.SubFactory(VehicleFactory)
    position = factory.SubFactory(
        PositionFactory, vehicle_class=factory.SelfAttribute("..vehicle.vehicle_class")
    )
    part = factory.SubFactory(PartFactory)
    sequence = factory.Sequence(lambda n: n + 1)
    removed_at = LONG_AGO
    removed_by = factory.SubFactory(MemberFactory)
