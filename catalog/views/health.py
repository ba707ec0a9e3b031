"""Whether the site is alive, and whether it is ready to serve: for a proxy or a watchdog."""

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryFile

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe


@login_not_required
@never_cache
@require_safe
def alive(request: HttpRequest) -> HttpResponse:
    return HttpResponse("alive\n", content_type="text/plain")


@login_not_required
@never_cache
@require_safe
def ready(request: HttpRequest) -> HttpResponse:
    """Say of each thing that serving needs whether it is there; not what it is or where."""
    found = {name: works() for name, works in CHECKS.items()}
    return JsonResponse(found, status=200 if all(found.values()) else 503)


def _database_answers() -> bool:
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return False
    return True


def _is_migrated() -> bool:
    try:
        executor = MigrationExecutor(connection)
        return not executor.migration_plan(executor.loader.graph.leaf_nodes())
    except DatabaseError:
        return False


def _media_can_be_written() -> bool:
    try:
        Path(settings.MEDIA_ROOT).mkdir(parents=True, exist_ok=True)
        with TemporaryFile(dir=settings.MEDIA_ROOT) as file:
            file.write(b"ready")
    except OSError:
        return False
    return True


CHECKS: dict[str, Callable[[], bool]] = {
    "database": _database_answers,
    "migrations": _is_migrated,
    "media": _media_can_be_written,
}
