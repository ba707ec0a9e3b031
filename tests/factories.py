"""One factory a model, each making the smallest valid record."""

import datetime as dt
from decimal import Decimal

import factory
from django.utils import timezone
from factory.django import DjangoModelFactory

from catalog import models
from catalog.models.members import Role

LONG_AGO = dt.datetime(2026, 4, 1, 9, 0, tzinfo=dt.UTC)


class MemberFactory(DjangoModelFactory):
    class Meta:
        model = models.Member
        skip_postgeneration_save = True

    username = factory.Sequence(lambda n: f"member{n}")
    role = Role.VOLUNTEER


class PartyFactory(DjangoModelFactory):
    class Meta:
        model = models.Party

    name = factory.Sequence(lambda n: f"Party {n}")
    sort_name = factory.SelfAttribute("name")


class SourceFactory(DjangoModelFactory):
    class Meta:
        model = models.Source

    title = factory.Sequence(lambda n: f"Source {n}")


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

    label = factory.Sequence(lambda n: f"Wagon {n}")
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

    name = factory.Sequence(lambda n: f"Shelf {n}")
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


class ProvenanceEventFactory(DjangoModelFactory):
    class Meta:
        model = models.ProvenanceEvent

    vehicle = factory.SubFactory(VehicleFactory)
    kind = models.ProvenanceEvent.Kind.BUILT


class CitationFactory(DjangoModelFactory):
    class Meta:
        model = models.Citation

    source = factory.SubFactory(SourceFactory)
    event = factory.SubFactory(ProvenanceEventFactory)


class PatentFactory(DjangoModelFactory):
    class Meta:
        model = models.Patent

    country = "XZ"
    number = factory.Sequence(lambda n: f"{n + 1}")
    title = "End door for tipping wagons"


class PhotoFactory(DjangoModelFactory):
    class Meta:
        model = models.Photo

    part = factory.SubFactory(PartFactory)
    original = "originals/none.jpg"
    sha256 = factory.Sequence(lambda n: f"{n:064d}")
    media_type = "image/jpeg"
    byte_size = 1000
    width = 1600
    height = 1200
    added_at = LONG_AGO
    added_by = factory.SubFactory(MemberFactory)


class PlanFactory(DjangoModelFactory):
    class Meta:
        model = models.Plan

    name = factory.Sequence(lambda n: f"Plan {n}")
    made_at = LONG_AGO
    made_by = factory.SubFactory(MemberFactory)


class WantFactory(DjangoModelFactory):
    class Meta:
        model = models.Want

    title = factory.Sequence(lambda n: f"Drawhead {n}")
    slug = factory.LazyAttribute(lambda made: made.title.lower().replace(" ", "-"))
    component = factory.SubFactory(ComponentFactory)


class AnswerFactory(DjangoModelFactory):
    class Meta:
        model = models.Answer

    want = factory.SubFactory(WantFactory)
    name = "A reader"
    contact = "reader@example.org"
    words = "There is one behind our shed."
    has_consent = True
    received_at = factory.LazyFunction(timezone.now)
