"""Addresses of accessions, of what was stated to be in them, and of their papers."""

from django.urls import path

from catalog.views import accession_papers, accessions, stated_lines

urlpatterns = [
    path("accessions/", accessions.accession_list, name="accession-list"),
    path("accessions/months/", accessions.accession_months, name="accession-months"),
    path("accessions/add/", accessions.accession_add, name="accession-add"),
    path(
        "accessions/<int:year>.<int:serial>/", accessions.accession_detail, name="accession-detail"
    ),
    path("accessions/<int:pk>/change/", accessions.accession_change, name="accession-change"),
    path("accessions/<int:pk>/close/", accessions.accession_close, name="accession-close"),
    path("accessions/<int:pk>/reopen/", accessions.accession_reopen, name="accession-reopen"),
    path("accessions/<int:pk>/receipt.pdf", accession_papers.receipt, name="accession-receipt"),
    path("accessions/<int:pk>/deed.pdf", accession_papers.deed, name="accession-deed"),
    path("accessions/<int:pk>/stated/add/", stated_lines.stated_line_add, name="stated-line-add"),
    path("stated/<int:pk>/change/", stated_lines.stated_line_change, name="stated-line-change"),
    path("stated/<int:pk>/remove/", stated_lines.stated_line_remove, name="stated-line-remove"),
    path("stated/<int:pk>/settle/", stated_lines.stated_line_settle, name="stated-line-settle"),
    path(
        "stated/<int:pk>/unsettle/", stated_lines.stated_line_unsettle, name="stated-line-unsettle"
    ),
]
