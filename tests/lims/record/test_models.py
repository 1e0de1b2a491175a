"""Each recorded model is written through the gate and held by PROTECT."""

import pytest
from django.apps import apps
from django.db import models

from lims.imports.models import Staging
from lims.record import trigger_texts
from lims.record.gate import RecordedQuerySet, Versioned
from lims.record.models import Entry, OpenGate

EVERY = trigger_texts.recorded_models()
BY_NAME = {"ids": lambda model: model._meta.label}


def test_every_model_of_the_laboratory_is_recorded():
    ours = {
        model
        for model in apps.get_models(include_auto_created=True)
        if model.__module__.startswith("lims.")
    }

    assert ours - set(EVERY) == {Entry, OpenGate, Staging}


@pytest.mark.parametrize("model", [*EVERY, Entry], **BY_NAME)
def test_its_managers_refuse_to_write_many_rows(model):
    for manager in model._meta.managers:
        assert isinstance(manager.get_queryset(), RecordedQuerySet), manager


@pytest.mark.parametrize("model", EVERY, **BY_NAME)
def test_its_links_protect_what_they_lead_to(model):
    loose = [
        field.name
        for field in model._meta.concrete_fields
        if field.is_relation and field.remote_field.on_delete is not models.PROTECT
    ]

    assert loose == []


@pytest.mark.parametrize("model", EVERY, **BY_NAME)
def test_it_has_no_hidden_table_of_pairs(model):
    assert list(model._meta.many_to_many) == []


@pytest.mark.parametrize("model", EVERY, **BY_NAME)
def test_the_gate_comes_first_among_its_bases(model):
    named = [base.__name__ for base in model.__mro__]

    assert named.index("Recorded") < named.index("Model")
    if issubclass(model, Versioned):
        assert isinstance(model._meta.get_field("version"), models.IntegerField)


@pytest.mark.parametrize("model", EVERY, **BY_NAME)
def test_its_masked_fields_exist(model):
    names = {field.name for field in model._meta.concrete_fields}

    assert model.secret_fields | model.hashed_fields <= names
