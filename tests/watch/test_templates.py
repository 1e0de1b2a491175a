"""Templates carry no style, no script and no handler of their own, and each one is used."""

import re

from tests.watch.files import files, name

FORBIDDEN = {
    "a style element": re.compile(r"<style\b", re.IGNORECASE),
    "a style attribute": re.compile(r"\sstyle\s*=", re.IGNORECASE),
    "a script in the page": re.compile(r"<script\b(?![^>]*\ssrc=)", re.IGNORECASE),
    "a handler": re.compile(r"\s(?:hx-)?on[a-z:-]*\s*=\s*[\"'{]", re.IGNORECASE),
    "a script address": re.compile(r"javascript:", re.IGNORECASE),
    "a template's own safety switch": re.compile(r"autoescape off|\|\s*safe\b"),
}
BY_DJANGO = {"400.html", "403.html", "404.html", "500.html"}


def templates():
    return list(files("templates", ending=".html"))


def test_templates_keep_to_the_content_security_policy():
    found = [
        f"{name(path)}: {what}"
        for path in templates()
        for what, pattern in FORBIDDEN.items()
        if pattern.search(path.read_text(encoding="utf-8"))
    ]

    assert found == []


def test_the_patterns_find_what_they_forbid():
    for what, text in {
        "a style element": "<p><style>b{}</style>",
        "a style attribute": '<p style="color:red">',
        "a script in the page": "<script>go()</script>",
        "a handler": '<button onclick="go()">',
        "a script address": '<a href="javascript:go()">',
        "a template's own safety switch": "{{ text|safe }}",
    }.items():
        assert FORBIDDEN[what].search(text), what
    assert not FORBIDDEN["a script in the page"].search('<script defer src="x.js">')


def test_every_template_is_used():
    sources = [*files("lims", ending=".py"), *templates()]
    texts = {path: path.read_text(encoding="utf-8") for path in sources}
    unused = []
    for path in templates():
        named = name(path).removeprefix("templates/")
        used = any(named in text for where, text in texts.items() if where != path)
        if not used and named not in BY_DJANGO:
            unused.append(named)

    assert unused == []
