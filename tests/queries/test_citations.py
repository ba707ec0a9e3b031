"""What sources stand behind, and what has none."""

import pytest
from django.utils import timezone

from catalog.queries.citations import CITED_KINDS, statements_citing, subject_of, unsourced
from catalog.queries.records import KINDS
from tests.factories import (
    AccessionFactory,
    CitationFactory,
    DeviationFactory,
    IdentificationFactory,
    MatingRuleFactory,
    MeasurementFactory,
    PartFactory,
    PatentFactory,
    ProvenanceEventFactory,
    SourceFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.django_db

MADE = {
    "event": ProvenanceEventFactory,
    "identification": IdentificationFactory,
    "specification": SpecificationFactory,
    "mating_rule": MatingRuleFactory,
    "measurement": MeasurementFactory,
    "accession": AccessionFactory,
    "vehicle": VehicleFactory,
    "vehicle_class": VehicleClassFactory,
    "part": PartFactory,
    "patent": PatentFactory,
    "deviation": DeviationFactory,
}


def test_every_citable_kind_has_an_address():
    assert set(CITED_KINDS.values()) == set(MADE)
    assert set(CITED_KINDS) <= set(KINDS)


def test_statements_of_every_kind_are_told_in_one_query(django_assert_num_queries):
    source = SourceFactory()
    for link, factory in MADE.items():
        CitationFactory(source=source, **{"event": None, link: factory()})

    with django_assert_num_queries(1):
        told = [(one.words, str(one.subject), one.address) for one in statements_citing(source)]

    assert len(told) == len(MADE)
    assert all(all(one) for one in told)


def test_event_of_a_part_is_shown_on_its_part():
    part = PartFactory()

    assert subject_of(ProvenanceEventFactory(vehicle=None, part=part)) == part


def test_identification_is_shown_on_its_part():
    identification = IdentificationFactory(vehicle_class=VehicleClassFactory())

    assert subject_of(identification) == identification.part


def test_unsourced_leaves_out_what_is_cited_withdrawn_or_superseded():
    event = ProvenanceEventFactory()
    CitationFactory(event=ProvenanceEventFactory())
    ProvenanceEventFactory(withdrawn_at=timezone.now())
    identification = IdentificationFactory()
    IdentificationFactory(superseded_at=timezone.now())
    limits = SpecificationFactory()

    found = {kind: list(rows) for kind, rows in unsourced().items()}

    assert found == {
        "event": [event],
        "identification": [identification],
        "specification": [limits],
    }
