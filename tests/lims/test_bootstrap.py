"""Making the environment on a machine that has Python and pip, and nothing else."""

import ast
import sys
from importlib import metadata
from pathlib import Path

import pytest

from lims import bootstrap

COMMAND = (
    "sudo apt-get update && sudo apt-get install -y --no-install-recommends "
    "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
)


class StartedAgainError(Exception):
    """Stands for the new process that takes this one's place."""


@pytest.fixture
def fresh(tmp_path, monkeypatch):
    """A folder without .venv and an interpreter without packages; installing always works."""
    venv = tmp_path / ".venv"
    lock = tmp_path / "requirements.lock"
    lock.write_text("django==5.2.19 \\\n    --hash=sha256:00\n")
    monkeypatch.setattr(bootstrap, "VENV", venv)
    monkeypatch.setattr(bootstrap, "STAMP", venv / ".lock-sha256")
    monkeypatch.setattr(bootstrap, "LOCK", lock)
    monkeypatch.setattr(bootstrap, "has_packages", lambda: False)
    monkeypatch.setattr(bootstrap, "_installers", lambda: [[sys.executable, "-V"]])
    monkeypatch.setattr(sys, "argv", ["manage.py", "migrate"])

    def run_again():
        raise StartedAgainError

    monkeypatch.setattr(bootstrap, "_run_again", run_again)
    return tmp_path


@pytest.fixture
def bare(monkeypatch):
    """A Debian without Pango; the commands that were run are in the list."""
    ran = []

    def quietly(command):
        ran.append(" ".join(command))
        return 1, "no network"

    monkeypatch.setattr(bootstrap, "_quietly", quietly)
    monkeypatch.setattr(bootstrap, "PDF_LIBRARIES", ("libnowhere-9.so.9",))
    monkeypatch.setattr(bootstrap.sys, "platform", "linux")
    monkeypatch.setattr(bootstrap.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 1000)
    return ran


def test_it_imports_only_what_python_brings():
    tree = ast.parse(Path(bootstrap.__file__).read_text(encoding="utf-8"))
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add(node.module.split(".")[0])

    assert names <= sys.stdlib_module_names


def test_an_environment_that_has_the_packages_is_used_as_it_is(fresh, monkeypatch):
    monkeypatch.setattr(bootstrap, "has_packages", lambda: True)

    bootstrap.ensure()

    assert not (fresh / ".venv").exists()


def test_without_packages_an_environment_is_made_once(fresh, monkeypatch):
    with pytest.raises(StartedAgainError):
        bootstrap.ensure()
    assert (fresh / ".venv" / "pyvenv.cfg").exists()

    monkeypatch.setattr(bootstrap, "_build", lambda: pytest.fail("built again"))
    with pytest.raises(StartedAgainError):
        bootstrap.ensure()


def test_a_changed_lock_is_installed_anew(fresh):
    with pytest.raises(StartedAgainError):
        bootstrap.ensure()
    before = bootstrap.STAMP.read_text()

    bootstrap.LOCK.write_text("django==5.2.20 \\\n    --hash=sha256:00\n")
    with pytest.raises(StartedAgainError):
        bootstrap.ensure()

    assert bootstrap.STAMP.read_text() != before


def test_an_environment_of_another_python_is_replaced(fresh):
    (fresh / ".venv").mkdir()
    (fresh / ".venv" / "pyvenv.cfg").write_text("version = 3.9.1\n")
    (fresh / ".venv" / "old").touch()

    with pytest.raises(StartedAgainError):
        bootstrap.ensure()

    assert not (fresh / ".venv" / "old").exists()


def test_the_next_way_to_install_is_tried_when_one_does_not_work(fresh, monkeypatch):
    no_way = [sys.executable, "-c", "raise SystemExit(1)"]
    absent = [str(fresh / "absent")]
    works = [sys.executable, "-V"]
    monkeypatch.setattr(bootstrap, "_installers", lambda: [no_way, absent, works])

    with pytest.raises(StartedAgainError):
        bootstrap.ensure()

    assert bootstrap.STAMP.exists()


def test_without_a_network_it_ends_with_a_sentence(fresh, monkeypatch):
    no_way = [sys.executable, "-c", "raise SystemExit('cannot reach it')"]
    monkeypatch.setattr(bootstrap, "_installers", lambda: [no_way])

    with pytest.raises(SystemExit) as end:
        bootstrap.ensure()

    assert end.value.code == bootstrap.NO_PACKAGES
    assert not bootstrap.STAMP.exists()


@pytest.mark.parametrize("pip", [None, "here"])
def test_every_way_to_install_checks_the_hashes(monkeypatch, pip):
    monkeypatch.setattr(bootstrap.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(bootstrap.util, "find_spec", lambda name: pip)
    monkeypatch.setattr(bootstrap, "_quietly", lambda command: (0, ""))

    ways = list(bootstrap._installers())

    assert len(ways) == (2 if pip else 3)
    assert all("--require-hashes" in way for way in ways)


def test_an_older_python_is_refused_by_name(fresh, monkeypatch):
    monkeypatch.setattr(bootstrap, "OLDEST_PYTHON", (4, 0))

    with pytest.raises(SystemExit) as end:
        bootstrap.ensure()

    assert str(end.value.code).startswith("Kettlemark needs Python 4.0 or newer")


def test_this_environment_has_every_package():
    assert bootstrap.has_packages()


@pytest.mark.parametrize("version", [None, "4.2.1", "6.0"])
def test_an_absent_package_or_another_major_version_is_noticed(monkeypatch, version):
    true_version = metadata.version

    def altered(name):
        if name != "django":
            return true_version(name)
        if version is None:
            raise metadata.PackageNotFoundError(name)
        return version

    monkeypatch.setattr(bootstrap.metadata, "version", altered)

    assert not bootstrap.has_packages()


@pytest.mark.parametrize(
    ("requirement", "name"),
    [
        ("django>=5.2.19,<5.3", "django"),
        ("coverage[toml]", "coverage"),
        ("argon2_CFFI", "argon2-cffi"),
        ("segno", "segno"),
    ],
)
def test_the_name_of_a_requirement_is_found(requirement, name):
    assert bootstrap._name(requirement) == name


def test_a_library_that_the_loader_does_not_find_is_named(monkeypatch):
    monkeypatch.setattr(bootstrap, "PDF_LIBRARIES", ("libnowhere-9.so.9",))
    monkeypatch.setattr(bootstrap.sys, "platform", "linux")

    assert bootstrap.missing_pdf_libraries() == ["libnowhere-9.so.9"]


def test_only_linux_is_asked_for_shared_libraries(monkeypatch):
    monkeypatch.setattr(bootstrap, "PDF_LIBRARIES", ("libnowhere-9.so.9",))
    monkeypatch.setattr(bootstrap.sys, "platform", "darwin")

    assert bootstrap.missing_pdf_libraries() == []


def test_whoever_is_not_root_gets_the_command_in_one_sentence(bare):
    with pytest.raises(SystemExit) as end:
        bootstrap.ensure_pdf_libraries()

    assert end.value.code == (
        "Certificates cannot be printed because this system lacks libnowhere-9.so.9; "
        f"run this, then the same command again: {COMMAND}"
    )
    assert bare == []


def test_root_on_debian_has_the_libraries_installed(bare, monkeypatch):
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 0)
    answers = iter([["libnowhere-9.so.9"], []])
    monkeypatch.setattr(bootstrap, "missing_pdf_libraries", lambda: next(answers))

    bootstrap.ensure_pdf_libraries()

    assert bare == [part.removeprefix("sudo ") for part in COMMAND.split(" && ")]


def test_root_without_a_network_gets_the_command_too(bare, monkeypatch):
    monkeypatch.setattr(bootstrap.os, "geteuid", lambda: 0)

    with pytest.raises(SystemExit) as end:
        bootstrap.ensure_pdf_libraries()

    assert str(end.value.code).endswith(COMMAND)
    assert len(bare) == 2


@pytest.mark.parametrize(("command", "is_asked"), [("demo", True), ("migrate", False)])
def test_only_commands_that_print_ask_for_the_libraries(
    fresh, monkeypatch, command, is_asked
):
    asked = []
    monkeypatch.setattr(bootstrap, "ensure_pdf_libraries", lambda: asked.append(1))
    monkeypatch.setattr(bootstrap, "has_packages", lambda: True)
    monkeypatch.setattr(sys, "argv", ["manage.py", command])

    bootstrap.ensure()

    assert bool(asked) is is_asked
