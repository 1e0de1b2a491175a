"""The worker of the demo: a process of its own that does what was left for the background, and ends with the demo."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from django.conf import settings


@contextmanager
def beside() -> Iterator[None]:
    """A worker runs while the block does."""
    command = [sys.executable, "manage.py", "db_worker", "--interval", "0.5"]
    worker = subprocess.Popen(  # noqa: S603 - our own program
        command, cwd=settings.ROOT, stdout=subprocess.DEVNULL
    )
    try:
        yield
    finally:
        worker.terminate()
        worker.wait(timeout=10)
