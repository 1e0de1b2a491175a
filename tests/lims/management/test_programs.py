"""Tests that drive a program which is missing are left out and counted, never lost in silence."""

import io

import pytest

from lims.management import programs
from lims.management.commands.test import Command


class Item:
    """Stands for a collected test."""

    def __init__(self, *markers):
        self.markers = markers

    def get_closest_marker(self, name):
        return name if name in self.markers else None


class Hook:
    """Takes the place of pytest's own hooks, and remembers what it was told."""

    def __init__(self):
        self.deselected = []

    def pytest_deselected(self, items):
        self.deselected += items


class Config:
    def __init__(self):
        self.hook = Hook()


class Terminal:
    def __init__(self):
        self.text = io.StringIO()

    def write_line(self, line, **colours):
        self.text.write(f"{line}\n")


def test_tests_of_a_missing_program_are_left_out_and_counted():
    plain, one, two = Item(), Item("browser"), Item("browser", "slow")
    items = [one, plain, two]
    left_out = programs.LeftOut({"browser": "Chromium is missing"})
    config, terminal = Config(), Terminal()

    left_out.pytest_collection_modifyitems(config, items)
    left_out.pytest_terminal_summary(terminal)

    assert items == [plain]
    assert config.hook.deselected == [one, two]
    assert "2 browser tests were left out" in terminal.text.getvalue()


def test_nothing_is_left_out_where_every_program_is_here():
    items = [Item("browser"), Item("java")]
    left_out, config = programs.LeftOut({}), Config()

    left_out.pytest_collection_modifyitems(config, items)

    assert len(items) == 2
    assert config.hook.deselected == []


def test_without_chromium_the_browser_is_missing(monkeypatch):
    monkeypatch.delenv("CHROMIUM", raising=False)
    monkeypatch.setattr(programs.shutil, "which", lambda name: None)

    assert programs.chromium() is None
    assert set(programs.missing()) == {"browser", "java"}


def test_the_browser_that_is_named_is_taken(monkeypatch):
    monkeypatch.setenv("CHROMIUM", "/opt/browser")
    monkeypatch.setattr(programs.shutil, "which", lambda name: name)

    assert programs.chromium() == "/opt/browser"


def test_where_every_test_must_run_a_missing_browser_ends_the_run(monkeypatch):
    monkeypatch.setenv("KETTLEMARK_DEMAND_BROWSER", "1")
    monkeypatch.setattr(programs, "missing", lambda: {"browser": "No Chromium."})

    with pytest.raises(SystemExit, match="No Chromium"):
        Command().handle()


def test_options_go_to_pytest_as_they_stand(monkeypatch):
    called = []
    monkeypatch.setattr(pytest, "main", lambda args, plugins: called.append(args) or 5)

    with pytest.raises(SystemExit) as end:
        Command().run_from_argv(["manage.py", "test", "-k", "penetration", "-x"])

    assert called == [["-k", "penetration", "-x"]]
    assert end.value.code == 5
