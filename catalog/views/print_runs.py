"""Printing many sheets as one file, each told on the page as soon as it is made."""

from collections.abc import Iterator

from django.http import Http404, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string
from django.utils.html import format_html
from django.views.decorators.http import require_http_methods

from catalog.forms.prints import EditionForm
from catalog.http import MemberRequest
from catalog.models import Accession, Location, Part, PrintedSheet, Vehicle
from catalog.printing.editions import Edition
from catalog.printing.runs import Laid, print_run
from catalog.queries.print_runs import PrintRun, all_vehicles, parts_at, parts_with
from catalog.views.fetch import require
from catalog.views.prints import edition_of

# What the page has in place of the sheets that are told one by one.
HERE = "<!-- sheets -->"


@require_http_methods(["GET", "HEAD", "POST"])
def print_several(request: MemberRequest, of: str, pk: int | None = None) -> HttpResponseBase:
    require(request)
    run = _run(of, pk)
    form = EditionForm(request.POST if request.method == "POST" else None)
    first = request.POST.get("first", "1")
    if form.is_valid() and first.isdecimal() and run.parcel(int(first)):
        return StreamingHttpResponse(_told(request, run, int(first), form))
    context = {"run": run, "form": form, "count": len(run.records)}
    return render(request, "catalog/prints/several.html", context)


def _run(of: str, pk: int | None) -> PrintRun:
    if of == "vehicles":
        return all_vehicles()
    if of == "location":
        return parts_at(get_object_or_404(Location.objects.kept(), pk=pk))
    if of == "accession":
        return parts_with(get_object_or_404(Accession.objects.kept(), pk=pk))
    raise Http404(f"There are no sheets of {of}.")


def _told(request: MemberRequest, run: PrintRun, first: int, form: EditionForm) -> Iterator[str]:
    """Yield the page in pieces: what is made already can be read while the rest is made."""
    records = run.parcel(first)
    context = {"run": run, "count": len(records), "here": HERE}
    before, _, after = render_to_string(
        "catalog/prints/progress.html", context, request=request
    ).partition(HERE)
    yield before

    def edition(record: Vehicle | Part) -> Edition:
        return edition_of(request, record, form)

    made = print_run(records, edition, run.title, by=request.user)
    for number, one in enumerate(made, start=1):
        yield _line(one, number, len(records))
    yield after


def _line(one: Laid | PrintedSheet, number: int, count: int) -> str:
    if isinstance(one, Laid):
        pages = "1 page" if one.pages == 1 else f"{one.pages} pages"
        return format_html("<li>{} of {}: {}, {}</li>", number, count, one.label, pages)
    words = '<li><a class="button primary" href="{}">Open {}, all {} sheets in one file</a></li>'
    return format_html(words, one.get_absolute_url(), one, count)
