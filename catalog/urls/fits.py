"""Addresses of what parts may be, what they fit, and the fit bench."""

from django.urls import path

from catalog.views import fit_bench, fits, identity, part_comparison, trials

urlpatterns = [
    path("parts/unidentified/", identity.part_unidentified, name="part-unidentified"),
    path("parts/<int:pk>/what/", identity.part_identity, name="part-identity"),
    path("parts/<int:pk>/what/brief/", identity.part_identity_brief, name="part-identity-brief"),
    path(
        "parts/<int:pk>/what/propose/",
        identity.part_identity_propose,
        name="part-identity-propose",
    ),
    path("parts/<int:pk>/fits/", fits.part_fits, name="part-fits"),
    path("parts/<int:pk>/compare/", part_comparison.part_compare, name="part-compare"),
    path("fit/", fit_bench.fit_bench, name="fit-bench"),
    path("trials/<int:pk>/take-back/", trials.trial_take_back, name="trial-take-back"),
]
