"""What is offered as an answer begins with a capital letter, whichever part of the program offers it."""

import ast

from tests.watch.files import modules, name, tree

PLACE = 1  # of the words among what a choice is made of


def text_of(node):
    """What a text begins with, as far as the source tells; None where it stands elsewhere."""
    if isinstance(node, ast.JoinedStr):
        node = node.values[0]
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    return None


def offered():
    """(where, words) of each choice whose words stand in the source."""
    for root in ("specs/tables", "lims/imports"):
        for path in modules(root):
            for node in ast.walk(tree(path)):
                is_choice = getattr(getattr(node, "func", None), "id", "") == "Choice"
                if not is_choice or len(node.args) <= PLACE:
                    continue
                if words := text_of(node.args[PLACE]):
                    yield f"{name(path)}: {words}", words


def test_there_are_choices_to_look_at():
    assert len(list(offered())) > 30


def test_the_words_of_a_choice_begin_with_a_capital_letter():
    assert [where for where, words in offered() if words[0].islower()] == []
