"""Addresses of plans."""

from django.urls import path

from catalog.views import plans

urlpatterns = [
    path("plans/", plans.plan_list, name="plan-list"),
    path("plans/new/", plans.plan_new, name="plan-new"),
    path("plans/compare/", plans.plan_compare, name="plan-compare"),
    path("plans/<int:pk>/", plans.plan_detail, name="plan-detail"),
    path("plans/<int:pk>/apply/", plans.plan_apply, name="plan-apply"),
    path("plans/<int:pk>/undo/", plans.plan_undo, name="plan-undo"),
]
