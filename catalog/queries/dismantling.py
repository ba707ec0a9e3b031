"""What was taken off a vehicle, in order, and the reverse order in which it goes back."""

from dataclasses import dataclass

from django.db.models import Prefetch

from catalog.models import Photo, Removal, Vehicle


@dataclass(frozen=True, slots=True)
class Dismantling:
    """The removals of a vehicle in the order of taking off, and those still to be put back."""

    taken_off: tuple[Removal, ...]
    to_put_back: tuple[Removal, ...]


def dismantling_of(vehicle: Vehicle) -> Dismantling:
    photos = Prefetch("photos", Photo.objects.in_order())
    rows = vehicle.removals.select_related("position__component", "part__component", "removed_by")
    taken_off = tuple(rows.prefetch_related(photos, "part__hazards").order_by("sequence"))
    still_off = [removal for removal in taken_off if removal.put_back_at is None]
    return Dismantling(taken_off, tuple(reversed(still_off)))
