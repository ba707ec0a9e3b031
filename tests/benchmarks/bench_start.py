"""Measure how soon the demonstration answers when it was set up before."""

import os
import shutil
import signal
import subprocess
import sys
import time

SECONDS = 5
PORT = 8765
MAKE = shutil.which("make") or "make"


def main():
    subprocess.run([MAKE, "var/static.stamp", "var/demonstration.txt"], check=True)  # noqa: S603 - our own command
    started = time.perf_counter()
    with subprocess.Popen(  # noqa: S603 - our own command
        [MAKE, "demo", f"PORT={PORT}"],
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as demonstration:
        lines = []
        for line in demonstration.stdout:
            lines.append(line)
            if line.startswith("Open "):
                break
        spent = time.perf_counter() - started
        os.killpg(demonstration.pid, signal.SIGTERM)
    if "running already" in lines[0]:
        sys.exit(f"Nothing can be measured: {lines[0]}")
    print(f"the demonstration answers after {spent:.1f} s, limit {SECONDS} s")
    return 0 if spent < SECONDS else 1


if __name__ == "__main__":
    sys.exit(main())
