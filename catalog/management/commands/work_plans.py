"""Work out plans as they come in: the process that runs beside the server."""

import logging
import signal
import threading
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.db import close_old_connections

from catalog.models import Plan
from catalog.operations.plan_work import work_next_plan

PAUSE_SECONDS = 1.0
log = logging.getLogger(__name__)


class Command(BaseCommand):
    help = "Work out the plans that wait, and those that come in, until it is stopped."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--once", action="store_true", help="Only those that wait now.")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["once"]:
            for _ in range(Plan.objects.waiting().count()):
                self._work()
            return
        stopped = threading.Event()
        signal.signal(signal.SIGTERM, lambda *_: stopped.set())
        while not stopped.is_set():
            close_old_connections()
            self._work()
            stopped.wait(PAUSE_SECONDS)

    def _work(self) -> None:
        """Work out one plan; a fault is in the log and on the plan, and others go on."""
        try:
            plan = work_next_plan()
        except Exception:
            log.exception("A plan could not be worked out.")
            return
        if plan is not None:
            self.stdout.write(f"“{plan}” is {plan.get_state_display()}.")
