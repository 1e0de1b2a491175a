#!/usr/bin/env python3
"""The one way in: `python3 manage.py demo`, `test`, and everything else Django knows."""

import os
import sys

from lims import bootstrap

if __name__ == "__main__":
    bootstrap.ensure()
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "lims.settings")
    # Django is there once the environment is.
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)
