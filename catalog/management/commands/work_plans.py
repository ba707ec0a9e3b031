"""Work out plans as they come in: the process that runs beside the server."""

import logging
import signal
import threading
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.db import DatabaseError, close_old_connections, connection

from catalog.models import Plan
from catalog.operations.plan_work import give_sign, next_plan, work_plan

PAUSE_SECONDS = 1.0
SIGN_SECONDS = 5.0
log = logging.getLogger(__name__)


class Command(BaseCommand):
    help = "Work out the plans that wait, and those that come in, until it is stopped."

    at_work_on: int | None = None

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--once", action="store_true", help="Only those that wait now.")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["once"]:
            for _ in range(Plan.objects.waiting().count()):
                self._work()
            return
        stopped = threading.Event()
        signal.signal(signal.SIGTERM, lambda *_: stopped.set())
        threading.Thread(target=self._give_signs, args=[stopped], daemon=True).start()
        while not stopped.is_set():
            close_old_connections()
            self._work()
            stopped.wait(PAUSE_SECONDS)

    def _work(self) -> None:
        """Work out one plan; a fault is in the log and on the plan, and others go on."""
        plan = next_plan()
        if plan is None:
            return
        self.at_work_on = plan.pk
        try:
            work_plan(plan, is_signed=True)
        except Exception:
            log.exception("A plan could not be worked out.")
            return
        finally:
            self.at_work_on = None
        self.stdout.write(f"“{plan}” is {plan.get_state_display()}.")

    def _give_signs(self, stopped: threading.Event) -> None:
        """Give a sign of life while a plan is worked out; the solver lets this thread run."""
        while not stopped.wait(SIGN_SECONDS):
            if self.at_work_on is not None:
                try:
                    give_sign(self.at_work_on)
                except DatabaseError:
                    log.exception("No sign of life could be given; the next one may go through.")
        connection.close()
