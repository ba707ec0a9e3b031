"""Serve the test's database by a real server, as it is installed: it can be killed and restarted."""

import os
import signal
import socket
import subprocess
import sys
import time
from http.client import HTTPConnection

from django.conf import settings
from django.db import connection

PATIENCE = 30


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class ShedServer:
    """One gunicorn with ten threads, with the static files gathered and named by their content."""

    def __init__(self, folder):
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.log = folder / "server.log"
        self.environment = {
            **os.environ,
            "DEVELOPMENT": "1",
            "DEBUG": "0",
            "DATABASE_URL": f"sqlite:///{connection.settings_dict['NAME']}",
            "MEDIA_ROOT": str(settings.MEDIA_ROOT),
            "STATIC_ROOT": str(folder / "static"),
            "SITE_NAME": settings.SITE_NAME,
            "DJANGO_SETTINGS_MODULE": "restoration.settings",
        }
        self.process = None
        self.changed = {}

    def gather_static_files(self):
        command = [sys.executable, "manage.py", "collectstatic", "--no-input", "--verbosity", "0"]
        subprocess.run(command, cwd=settings.BASE_DIR, env=self.environment, check=True)  # noqa: S603

    def start(self, workers=1, **changed):
        """Start the server, with environment variables changed if need be."""
        self.changed = changed
        command = [
            *(sys.executable, "-m", "gunicorn", "restoration.wsgi", "--no-control-socket"),
            *("--bind", f"127.0.0.1:{self.port}", "--log-level", "warning"),
            *("--worker-class", "gthread", "--threads", "10", "--workers", str(workers)),
        ]
        with self.log.open("a") as log:
            self.process = subprocess.Popen(  # noqa: S603
                command,
                cwd=settings.BASE_DIR,
                env={**self.environment, **changed},
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
        self._await_first_answer()

    def _await_first_answer(self):
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline and self.process.poll() is None:
            asking = HTTPConnection("127.0.0.1", self.port, timeout=10)
            try:
                asking.request("GET", "/livez")
                if asking.getresponse().status == 200:
                    return
            except OSError:
                time.sleep(0.05)
            finally:
                asking.close()
        raise RuntimeError(f"The server did not start:\n{self.log.read_text()}")

    def start_again_unless_as_before(self):
        if self.changed:
            self.kill()
        if self.process.poll() is not None:
            self.start()

    def kill(self):
        """Kill the server at once, with all its workers, as a power cut does."""
        self._end(signal.SIGKILL)

    def stop(self):
        self._end(signal.SIGTERM)

    def _end(self, how):
        os.killpg(self.process.pid, how)
        self.process.wait(timeout=PATIENCE)
