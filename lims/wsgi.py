"""What a web server calls. It does not start over a database whose guards are missing."""

import gc
import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "lims.settings")
application = get_wsgi_application()

from django.conf import settings  # noqa: E402 - Django is set up by now
from django.core.exceptions import ImproperlyConfigured  # noqa: E402
from django.db import DEFAULT_DB_ALIAS, connection  # noqa: E402

from lims.record import clock, triggers  # noqa: E402

if triggers.missing(DEFAULT_DB_ALIAS):
    raise ImproperlyConfigured(
        "The database does not refuse unrecorded writes, so the laboratory does not "
        "start over it: run python3 manage.py migrate, then manage.py verify."
    )
connection.close()  # each worker opens its own
if settings.MODE == "demo":
    clock.resume_demo()
gc.collect()
gc.freeze()  # what stands now stays: no request waits while the collector walks it
