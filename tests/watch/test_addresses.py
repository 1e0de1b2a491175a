"""Nothing in the project names a machine, or where packages come from."""

import re

from tests.watch.files import ROOT, files, name

FORBIDDEN = re.compile(
    "|".join(
        [
            r"(?<![\w.-])/wor[k]/",
            r"/roo[t]/",
            r"/home/\w+/",
            r"py[p]i\.org",
            r"files\.pythonhoste[d]",
            r"--(?:extra-)?inde[x]-url",
            r"--find-link[s]",
            r"https?://[^\s\"']*/simpl[e]\b",
        ]
    )
)
BINARY = {".woff2", ".ttf", ".png", ".icc", ".pdf", ".ico", ".xlsx", ".gz"}


def test_no_file_names_a_machine_or_a_package_source():
    top = [path for path in ROOT.iterdir() if path.is_file()]
    paths = [path for path in [*top, *files()] if path.suffix not in BINARY]

    found = [
        f"{name(path)}: {hit.group()}"
        for path in paths
        for hit in FORBIDDEN.finditer(path.read_text(encoding="utf-8"))
    ]

    assert len(paths) > 100
    assert found == []


def test_the_pattern_finds_them():
    for text in ["/wor" + "k/main", "--inde" + "x-url x", "https://py" + "pi.org/x"]:
        assert FORBIDDEN.search(text)
