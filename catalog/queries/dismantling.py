"""What was taken off a vehicle, in order, and the reverse order in which it goes back."""

from dataclasses import dataclass

from django.db.models import Prefetch

from catalog.models import Fitting, Photo, Removal, Vehicle


@dataclass(frozen=True, slots=True)
class Dismantling:
    """What is on a vehicle, what came off in order, what is still off, and what is back."""

    still_on: tuple[Fitting, ...]
    taken_off: tuple[Removal, ...]
    to_put_back: tuple[Removal, ...]

    @property
    def put_back(self) -> tuple[Removal, ...]:
        """Return what is on again, what came off first before the others."""
        return tuple(removal for removal in self.taken_off if removal.put_back_at)


def dismantling_of(vehicle: Vehicle) -> Dismantling:
    photos = Prefetch("photos", Photo.objects.in_order())
    rows = vehicle.removals.select_related(
        "position__component", "part__component", "part__location", "removed_by"
    )
    taken_off = tuple(rows.prefetch_related(photos, "part__hazards").order_by("sequence"))
    still_off = [removal for removal in taken_off if removal.put_back_at is None]
    return Dismantling(_still_on(vehicle), taken_off, tuple(reversed(still_off)))


def _still_on(vehicle: Vehicle) -> tuple[Fitting, ...]:
    """Return what is fitted, assembly by assembly as the class lists its positions."""
    fitted = vehicle.fittings.filter(state=Fitting.State.FITTED)
    rows = fitted.select_related("position__component", "part")
    return tuple(rows.order_by("position__sequence", "position__code", "pk"))
