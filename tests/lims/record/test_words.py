"""Every verb that the code writes into the record has its sentence."""

import ast

import pytest

from lims.record import words
from tests.watch.files import modules, name, tree


def verbs_used():
    for path in modules("lims"):
        for node in ast.walk(tree(path)):
            is_verb = isinstance(node, ast.keyword) and node.arg == "verb"
            if is_verb and isinstance(node.value, ast.Constant) and node.value.value:
                yield name(path), node.value.value


def test_every_verb_in_the_code_is_registered():
    unknown = {verb for _, verb in verbs_used()} - words.VERBS.keys()

    assert unknown == set()


def test_every_registered_verb_names_its_thing_and_what_happened():
    assert [verb for verb in words.VERBS if "_" not in verb] == []


def test_a_verb_is_told_in_words():
    assert words.in_words("role_given") == "Role given"


def test_an_unknown_verb_raises():
    with pytest.raises(LookupError, match="lot_eaten"):
        words.in_words("lot_eaten")


def test_a_verb_has_one_sentence():
    words.register({"role_given": "Role given"})

    with pytest.raises(ValueError, match="already means"):
        words.register({"role_given": "Role handed over"})
