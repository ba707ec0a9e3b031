"""Members on the screen: for stewards, and everybody's own password."""

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.forms.members import MemberAddForm, MemberChangeForm, PasswordForm
from catalog.http import MemberRequest
from catalog.models import Member, Role
from catalog.operations.members import (
    add_member,
    change_member,
    change_own_password,
    first_password,
    set_password,
)
from catalog.queries.history import history_of
from catalog.views.fetch import fetch, members_only, refusals_shown_in
from catalog.views.pages import page_of


@require_safe
@members_only(Role.STEWARD)
def member_list(request: MemberRequest) -> HttpResponse:
    rows = Member.objects.order_by("-is_active", "first_name", "username")
    return render(request, "catalog/members/list.html", {"page": page_of(rows, request)})


@require_http_methods(["GET", "HEAD", "POST"])
@members_only(Role.STEWARD)
@never_cache
def member_add(request: MemberRequest) -> HttpResponse:
    form = MemberAddForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        values = form.values()
        password = values.pop("password") or first_password()
        with refusals_shown_in(form):
            member = add_member(values, password=password, by=request.user)
            return _shown_once(request, member, password)
    return render(request, "catalog/members/form.html", {"form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def member_change(request: MemberRequest, pk: int) -> HttpResponse:
    member = fetch(Member.objects.all(), request, Role.STEWARD, pk=pk)
    form = MemberChangeForm(request.POST if request.method == "POST" else None, instance=member)
    if form.is_valid():
        with refusals_shown_in(form):
            change_member(member, form.values(), by=request.user)
            messages.success(request, f"{member} is changed.")
            return redirect("member-list")
    kept = Member.objects.get(pk=pk)
    context = {"form": form, "member": kept, "entries": history_of(kept)}
    return render(request, "catalog/members/form.html", context)


@require_POST
@never_cache
def member_password(request: MemberRequest, pk: int) -> HttpResponse:
    member = fetch(Member.objects.all(), request, Role.STEWARD, pk=pk)
    password = first_password()
    set_password(member, password, by=request.user)
    return _shown_once(request, member, password)


@require_http_methods(["GET", "HEAD", "POST"])
def own_password(request: MemberRequest) -> HttpResponse:
    form = PasswordForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        told = form.cleaned_data
        with refusals_shown_in(form):
            change_own_password(request.user, old=told["old"], new=told["password"])
            update_session_auth_hash(request, request.user)
            messages.success(request, "Your password is changed.")
            return redirect("home")
    return render(request, "catalog/members/password.html", {"form": form})


def _shown_once(request: MemberRequest, member: Member, password: str) -> HttpResponse:
    """Show a first password in the answer itself, so that it is kept nowhere."""
    context = {"member": member, "password": password}
    return render(request, "catalog/members/first_password.html", context)
