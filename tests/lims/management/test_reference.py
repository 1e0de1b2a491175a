"""`manage.py reference`: what is shipped is added once."""

import io

import pytest
from django.core.management import call_command

from lims.methods.models import Characteristic

pytestmark = pytest.mark.django_db


def run():
    out = io.StringIO()
    call_command("reference", stdout=out)
    return int(out.getvalue().split()[0])


def test_what_is_shipped_is_added_once():
    assert run() > 0
    assert Characteristic.objects.exists()

    assert run() == 0
