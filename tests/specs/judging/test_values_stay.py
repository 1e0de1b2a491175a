"""What is computed once is not altered afterwards: every value that judging hands out is frozen."""

import dataclasses
import importlib
import pkgutil

import pytest

import specs.judging

MODULES = [name for _, name, _ in pkgutil.iter_modules(specs.judging.__path__)]


@pytest.mark.parametrize("name", MODULES)
def test_every_dataclass_is_frozen(name):
    module = importlib.import_module(f"specs.judging.{name}")

    classes = [it for it in vars(module).values() if isinstance(it, type)]
    told = [it for it in classes if dataclasses.is_dataclass(it)]

    assert all(it.__dataclass_params__.frozen for it in told)


def test_there_are_dataclasses_to_look_at():
    found = {
        it.__name__
        for name in MODULES
        for it in vars(importlib.import_module(f"specs.judging.{name}")).values()
        if isinstance(it, type) and dataclasses.is_dataclass(it)
    }

    assert {"Judgement", "Zone", "Rule", "Grade", "Decoded"} <= found
