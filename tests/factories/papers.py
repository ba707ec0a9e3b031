"""Factories of provenance, patents, photos, plans and wants."""

import factory
from django.utils import timezone
from factory.django import DjangoModelFactory

from catalog import models
from tests.factories.kinds import ComponentFactory, VehicleFactory
from tests.factories.moments import LONG_AGO
from tests.factories.parts import PartFactory
from tests.factories.people import MemberFactory, SourceFactory


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
