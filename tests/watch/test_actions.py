"""Only actions open an entry of the record. Each is told by keyword, ends with who does it, and says what it does."""

import ast

from tests.watch.files import modules, name, tree

OUTSIDE = "lims/record/"  # the gate itself


def opens_an_entry(node):
    return any(
        isinstance(part, ast.Call)
        and (getattr(part.func, "id", None) or getattr(part.func, "attr", None))
        == "entry"
        for part in ast.walk(node)
    )


def is_a_module_of_actions(path):
    return path.stem.startswith("actions") or path.parent.name == "actions"


def writers():
    """(path, function) for each function that opens an entry."""
    for path in modules("lims"):
        if name(path).startswith(OUTSIDE):
            continue
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.FunctionDef) and opens_an_entry(node):
                yield path, node


def actions():
    """(where, function) for each public function that opens an entry."""
    for path, node in writers():
        if not node.name.startswith("_"):
            yield f"{name(path)}: {node.name}", node


def test_every_room_that_is_written_to_has_actions():
    rooms = {where.split("/")[1] for where, _ in actions()}

    assert {"people", "products", "instruments", "batches", "bench"} <= rooms
    assert {"methods", "decisions", "certificates"} <= rooms


def test_only_modules_of_actions_open_an_entry():
    elsewhere = [
        f"{name(path)}: {node.name}"
        for path, node in writers()
        if not is_a_module_of_actions(path)
    ]

    assert elsewhere == []


def test_an_action_takes_keywords_only():
    loose = [
        where
        for where, node in actions()
        if node.args.args or node.args.posonlyargs or node.args.vararg
    ]

    assert loose == []


def test_the_last_argument_of_an_action_is_by():
    wrong = [
        where
        for where, node in actions()
        if not node.args.kwonlyargs or node.args.kwonlyargs[-1].arg != "by"
    ]

    assert wrong == []


def test_an_action_says_what_it_does():
    silent = [where for where, node in actions() if not ast.get_docstring(node)]

    assert silent == []
