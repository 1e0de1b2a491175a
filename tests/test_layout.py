"""Where things lie and how long they may be."""

import json

from tests.watch.files import ROOT, files, modules, name, tree

TOP_LEVEL = {
    "DEVELOPERS.md",
    "README.md",
    "fixtures",
    "lims",
    "manage.py",
    "pyproject.toml",
    "requirements.lock",
    "specs",
    "templates",
    "tests",
}


def longer_than(limit, paths):
    counts = {name(path): len(path.read_text("utf-8").splitlines()) for path in paths}
    return {path: count for path, count in counts.items() if count > limit}


def test_the_top_level_holds_no_more_than_it_must():
    there = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}

    assert there - {"__pycache__"} <= TOP_LEVEL


def test_no_python_file_is_longer_than_300_lines():
    paths = list(modules("lims", "specs", "tests"))

    assert len(paths) > 50
    assert longer_than(300, paths) == {}


def test_no_template_is_longer_than_150_lines():
    assert longer_than(150, files("templates", "lims", ending=".html")) == {}


def test_no_stylesheet_is_longer_than_600_lines():
    assert longer_than(600, files("lims", ending=".css")) == {}


def test_every_module_says_in_its_first_line_what_it_is():
    silent = []
    for path in modules("lims", "specs"):
        first = tree(path).body[0]
        value = getattr(first, "value", None)
        if not isinstance(getattr(value, "value", None), str):
            silent.append(name(path))

    assert silent == []


def test_every_fixture_in_json_loads():
    paths = list(files("fixtures", ending=".json"))

    for path in paths:
        assert json.loads(path.read_text(encoding="utf-8")), name(path)

    assert paths


def test_every_dependency_says_what_it_is_for():
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    lists = [part.partition("\n]")[0] for part in text.split(" = [\n")[1:]]
    lines = [
        line.strip()
        for part, key in zip(lists, text.split(" = [\n"), strict=False)
        if key.rsplit("\n", 1)[-1] in {"dependencies", "dev"}
        for line in part.splitlines()
    ]

    assert len(lines) > 20
    assert [line for line in lines if " # " not in line] == []
