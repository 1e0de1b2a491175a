"""Words that are not the laboratory's own stay out of what people read."""

import ast
import re

from tests.watch.files import files, modules, name, tree

NEVER = re.compile(
    r"\b(OK|worksheets?|sample login|validat(?:e|es|ed|ion)|publish(?:es|ing)?|"
    r"pass(?:ed|es)?(?! or fail))\b"  # the rust test's own words, as a kind of result
)
ELSEWHERE = (
    "specs/proving.py",
    "lims/documents/proof.py",
    "specs/methods/findings.py",  # a bearing of the rust test does: there is no number
)  # known answers pass or fail; a grease never does
MARKUP = re.compile(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}|<[^>]*>", re.DOTALL)


def sentences(path):
    """The texts of a module that are not docstrings, with their lines."""
    module = tree(path)
    prose = {
        id(node.body[0].value)
        for node in ast.walk(module)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(module):
        text = getattr(node, "value", None) if isinstance(node, ast.Constant) else None
        if isinstance(text, str) and " " in text and id(node) not in prose:
            yield node.lineno, text


def test_templates_say_authorise_issue_met_and_not_met():
    found = [
        f"{name(path)}: {hit.group()}"
        for path in files("templates", ending=".html")
        for hit in NEVER.finditer(MARKUP.sub(" ", path.read_text(encoding="utf-8")))
    ]

    assert found == []


def test_sentences_in_the_code_use_the_same_words():
    found = [
        f"{name(path)}:{line}: {hit.group()}"
        for path in modules("lims", "specs")
        if "management" not in path.parts and name(path) not in ELSEWHERE
        for line, text in sentences(path)
        for hit in NEVER.finditer(text)
    ]

    assert found == []


def test_the_pattern_knows_the_words_and_leaves_their_neighbours_alone():
    assert NEVER.search("The result has passed.")
    assert NEVER.search("OK")
    assert not NEVER.search("Your password, the published limit, a failure to print.")
