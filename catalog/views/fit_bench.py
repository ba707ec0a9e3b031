"""The fit bench on the screen: two pieces side by side, the verdict, and how a trial went."""

from urllib.parse import urlencode

from django.http import Http404, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from catalog.forms.fits import BenchForm, TrialForm
from catalog.http import MemberRequest
from catalog.models import Part, Position, Vehicle
from catalog.operations.fittings import Against, record_trial
from catalog.queries.fit_pairs import OnBench, part_at, two_parts
from catalog.views.fetch import key_of, members_only, refusals_shown_in
from catalog.views.fits import component_of, leading_guess
from catalog.views.form_pages import sent
from catalog.views.trials import tell_trial

PARTS = Part.objects.select_related("component", "vehicle_class")


@require_http_methods(["GET", "HEAD", "POST"])
@members_only()
def fit_bench(request: MemberRequest) -> HttpResponse:
    """Show what the address lays on the bench, or ask what to lay there."""
    if "part" not in request.GET:
        return _choose(request)
    part, against = _laid_out(request.GET)
    form = TrialForm(*sent(request))
    if form.is_valid():
        with refusals_shown_in(form):
            trial = record_trial(part, **form.values(), **against, by=request.user)
            tell_trial(request, trial, form.cleaned_data["photos"], page="bench")
            return redirect(f"{reverse('fit-bench')}?{request.GET.urlencode()}")
    context = {"part": part, "bench": _bench(part, against), "form": form}
    return render(request, "catalog/fits/bench.html", context)


def _choose(request: MemberRequest) -> HttpResponse:
    form = BenchForm(request.GET if "first" in request.GET else None)
    if form.is_valid():
        return redirect(f"{reverse('fit-bench')}?{urlencode(form.values())}")
    return render(request, "catalog/fits/choose.html", {"form": form})


def _laid_out(which: QueryDict) -> tuple[Part, Against]:
    """Return the part and what it lies against; an address that names no such thing is wrong."""
    keys = {name: _key(value) for name, value in which.items()}
    part = get_object_or_404(PARTS, pk=keys.get("part"))
    if "other" in keys:
        return part, {"other_part": get_object_or_404(PARTS, pk=keys["other"])}
    vehicles = Vehicle.objects.kept().select_related("vehicle_class")
    positions = Position.objects.select_related("component")
    return part, {
        "vehicle": get_object_or_404(vehicles, pk=keys.get("vehicle")),
        "position": get_object_or_404(positions, pk=keys.get("position")),
    }


def _bench(part: Part, against: Against) -> OnBench:
    taken_as = component_of(leading_guess(part))
    other = against.get("other_part")
    if other is not None:
        return two_parts(part, other, taken_as=taken_as)
    vehicle, position = against.get("vehicle"), against.get("position")
    if vehicle is None or position is None:
        raise Http404("The address names neither another part nor a position.")
    found = part_at(part, vehicle, position, taken_as=taken_as)
    if found is None:
        raise Http404(f"{vehicle} has no such position.")
    return found


def _key(text: object) -> int:
    key = key_of(text)
    if key is None:
        raise Http404("The address names no record.")
    return key
