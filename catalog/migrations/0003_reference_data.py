"""Bring the instruments of a workshop and the hazards of old pieces; members may edit both."""

from decimal import Decimal

from django.db import migrations

from catalog.reckoning.hazards import HAZARDS
from catalog.reckoning.instruments import INSTRUMENTS

PLACES = Decimal("1e-9")


def bring(apps, schema_editor):
    Hazard = apps.get_model("catalog", "Hazard")
    for hazard in HAZARDS:
        Hazard.objects.create(slug=hazard.slug, label=hazard.label, caution=hazard.caution)
    Instrument = apps.get_model("catalog", "Instrument")
    for place, (code, instrument) in enumerate(INSTRUMENTS.items()):
        Instrument.objects.create(
            slug=code,
            name=instrument.name,
            resolution_mm=Decimal(instrument.resolution_mm).quantize(PLACES),
            uncertainty_mm=Decimal(instrument.uncertainty_mm).quantize(PLACES),
            note=" ".join(part for part in (instrument.note, instrument.caution) if part)[:240],
            sequence=place,
        )


class Migration(migrations.Migration):
    dependencies = [("catalog", "0002_guards")]

    operations = [migrations.RunPython(bring, migrations.RunPython.noop)]
