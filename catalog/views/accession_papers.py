"""The papers of an accession, for members to print."""

from django.http import Http404, HttpResponse
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Accession
from catalog.printing import accessions as papers
from catalog.printing.papers import paper_named
from catalog.views.fetch import fetch
from catalog.views.papers import pdf_answer, record_address


@require_safe
def receipt(request: MemberRequest, pk: int) -> HttpResponse:
    accession = fetch(Accession.objects.for_detail().kept(), request, pk=pk)
    paper = papers.receipt(
        accession,
        address=record_address(request, accession),
        paper=paper_named(request.GET.get("paper", "")),
    )
    return pdf_answer(paper, f"receipt-{accession.number}")


@require_safe
def deed(request: MemberRequest, pk: int) -> HttpResponse:
    accession = fetch(Accession.objects.for_detail().kept(), request, pk=pk)
    if accession.method != Accession.Method.GIFT:
        raise Http404("A deed of gift is for gifts; this came otherwise.")
    paper = papers.deed_of_gift(
        accession,
        address=record_address(request, accession),
        paper=paper_named(request.GET.get("paper", "")),
    )
    return pdf_answer(paper, f"deed-of-gift-{accession.number}")
