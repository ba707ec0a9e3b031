"""What the page for taking in offers to choose from."""

from catalog.models import Characteristic


def measured_names() -> list[str]:
    """Return the names of all characteristics, each once, to be picked instead of typed."""
    names = Characteristic.objects.order_by("name").values_list("name", flat=True)
    return list(names.distinct())
