"""Reading in a process of its own: the same sheets, the same refusals, and an end where a file takes too much."""

import signal
import subprocess
import sys

import pytest

from lims.sheets.reading import FileRefused, How, limited, read, read_limited
from lims.sheets.reading.refusing import MiB
from tests.lims.sheets.reading import made

TEXT = "Batch;Öl\nQ1;280,5\n".encode("cp1252")


@pytest.fixture
def stored(tmp_path):
    def store(content):
        path = tmp_path / "kept under a name without an ending"
        path.write_bytes(content)
        return path

    return store


def why(path, **bounds):
    with pytest.raises(FileRefused) as refused:
        read_limited(path, "a.csv", **bounds)
    return refused.value.sentence


@pytest.mark.parametrize("content", [TEXT, made.book()], ids=["text", "workbook"])
def test_it_gives_what_reading_at_once_gives(content, stored):
    assert read_limited(stored(content), "pen.csv") == read(content, "pen.csv")


def test_what_was_chosen_is_handed_on(stored):
    how = How("cp850", ",")

    assert read_limited(stored(TEXT), "a.csv", how) == read(TEXT, "a.csv", how=how)


def test_a_refusal_is_the_same_sentence(stored):
    assert why(stored(b"%PDF-1.7")).startswith("The file is a PDF.")


@pytest.mark.parametrize("name", ["-c", "--help", "a;rm -rf.csv", "pen\nbook.csv", ""])
def test_a_name_is_only_a_name(name, stored):
    assert read_limited(stored(TEXT), name) == read(TEXT, name)


@pytest.fixture
def large(stored):
    lines = (f"Q1-{i};{i};{i * 7};{i * 11}" for i in range(400_000))
    return stored("\n".join(lines).encode())


def test_a_file_that_takes_too_much_memory_is_refused(large):
    assert "more than 100 MB of memory" in why(large, memory=100 * MiB)


def test_a_file_that_takes_too_long_on_the_clock_is_refused(stored):
    assert "longer than 0.01 seconds" in why(stored(TEXT), clock=0.01)


def python(code):
    return subprocess.run(  # noqa: S603 - this very interpreter
        [sys.executable, "-c", code],
        cwd=limited.ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


BOUND = "from lims.sheets.reading.__main__ import bound; bound(1, 1 << 30); "


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX bounds its processes")
def test_a_process_that_takes_too_long_is_ended_by_the_system():
    assert python(f"{BOUND}\nwhile True: pass").returncode == -signal.SIGXCPU


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX bounds its processes")
def test_the_process_writes_no_file(tmp_path):
    path = tmp_path / "a"
    run = python(f"{BOUND}import pathlib; pathlib.Path({str(path)!r}).write_text('x')")

    assert "File too large" in run.stderr
    assert not path.read_bytes()


@pytest.mark.parametrize(
    ("code", "says"),
    [
        (-signal.SIGXCPU, "longer than 60 seconds"),
        (-signal.SIGKILL, "longer than 60 seconds"),
        (-signal.SIGABRT, "more than 1536 MB of memory"),
        (limited.OUT_OF_MEMORY, "more than 1536 MB of memory"),
        (-signal.SIGSEGV, "reading it broke off"),
        (1, "reading it broke off"),
    ],
)
def test_however_the_process_ends_it_is_a_sentence(code, says, stored, monkeypatch):
    ended = subprocess.CompletedProcess([], code, b"", b"")
    monkeypatch.setattr(subprocess, "run", lambda *_, **__: ended)

    assert says in why(stored(TEXT))


def test_a_process_that_breaks_off_is_a_refusal(stored, monkeypatch):
    monkeypatch.setattr(limited, "ROOT", "/")  # nothing to import there

    assert "reading it broke off" in why(stored(TEXT))


def test_no_secret_of_the_server_is_handed_on(stored, monkeypatch):
    monkeypatch.setenv("KETTLEMARK_SECRET_KEY", "x" * 50)
    given = {}
    run = subprocess.run

    def spy(*arguments, **named):
        given.update(named["env"])
        return run(*arguments, **named)

    monkeypatch.setattr(subprocess, "run", spy)
    read_limited(stored(TEXT), "a.csv")

    assert given
    assert not any("KETTLEMARK" in key or "DATABASE" in key for key in given)


def test_the_process_loads_neither_the_framework_nor_numerics():
    code = "import sys, lims.sheets.reading.__main__; print(*sys.modules)"
    loaded = python(code).stdout.split()

    assert "lims.sheets.reading.whole" in loaded
    assert {"django", "numpy", "openpyxl", "python_calamine"}.isdisjoint(loaded)
