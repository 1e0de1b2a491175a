"""Makes the environment that the laboratory runs in, then starts the command again inside it.

Standard library only: it runs before anything is installed.
"""

from __future__ import annotations

import ctypes
import hashlib
import os
import shutil
import subprocess
import sys
from importlib import metadata, util
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
LOCK = ROOT / "requirements.lock"
STAMP = VENV / ".lock-sha256"
OLDEST_PYTHON = (3, 11)

PRINTING_COMMANDS = ("demo", "test")
PDF_LIBRARIES = (
    "libgobject-2.0.so.0",
    "libpango-1.0.so.0",
    "libpangoft2-1.0.so.0",
    "libharfbuzz.so.0",
    "libharfbuzz-subset.so.0",
    "libfontconfig.so.1",
)
APT_INSTALL = ("apt-get", "install", "-y", "--no-install-recommends")
PDF_PACKAGES = ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0")

OLD_PYTHON = "Kettlemark needs Python {need} or newer, and this is {this}: start it again with a newer python3."
NO_ENVIRONMENT = "The folder .venv could not be made: see that this folder can be written to and, on Debian or Ubuntu, run: apt-get install -y python3-venv"
NO_PACKAGES = "The locked packages could not be installed: see that the network or pip's own package source can be reached, then run the same command again."
NO_PDF_LIBRARIES = "Certificates cannot be printed because this system lacks {missing}; run this, then the same command again: {command}"


def ensure() -> None:
    """Return when this interpreter has all the packages; else make .venv and run the command again in it."""
    if sys.version_info < OLDEST_PYTHON:
        need = ".".join(map(str, OLDEST_PYTHON))
        _end(OLD_PYTHON.format(need=need, this=sys.version.split()[0]))
    if sys.argv[1:2] and sys.argv[1] in PRINTING_COMMANDS:
        ensure_pdf_libraries()
    if _runs_in_venv():
        if _stamped():
            return
        _build()
    elif not _stamped():
        if has_packages():
            return
        _build()
    _run_again()


def has_packages() -> bool:
    """Whether this interpreter has every package of pyproject.toml in the locked major version."""
    import tomllib  # absent before Python 3.11, which has been refused by now

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = [*project["project"]["dependencies"], *project["dependency-groups"]["dev"]]
    locked = locked_versions()
    for line in wanted:
        if ";" in line:  # only for some systems
            continue
        name = _name(line)
        try:
            here = metadata.version(name)
        except metadata.PackageNotFoundError:
            return False
        if here.split(".")[0] != locked[name].split(".")[0]:
            return False
    return True


def locked_versions() -> dict[str, str]:
    """Package name -> version, as requirements.lock has them."""
    pins = {}
    for line in LOCK.read_text(encoding="utf-8").splitlines():
        name, mark, rest = line.partition("==")
        if mark and not line.startswith((" ", "#")):
            pins[_name(name)] = rest.split()[0]
    return pins


def missing_pdf_libraries() -> list[str]:
    """The shared libraries that printing needs and the loader does not find (Linux only)."""
    if not sys.platform.startswith("linux"):
        return []
    missing = []
    for name in PDF_LIBRARIES:
        try:
            ctypes.CDLL(name)
        except OSError:
            missing.append(name)
    return missing


def ensure_pdf_libraries() -> None:
    """Install what printing needs (Debian or Ubuntu, as root), or end with the command that does."""
    if not missing_pdf_libraries():
        return
    on_debian = shutil.which("apt-get") is not None
    if on_debian and os.geteuid() == 0:
        print("Installing the libraries that certificates need ...", file=sys.stderr)
        _quietly(["apt-get", "update"])
        _quietly([*APT_INSTALL, *PDF_PACKAGES])
    missing = missing_pdf_libraries()
    if missing:
        command = "install Pango and HarfBuzz with the system's own packages"
        if on_debian:
            install = " ".join((*APT_INSTALL, *PDF_PACKAGES))
            command = f"sudo apt-get update && sudo {install}"
        _end(NO_PDF_LIBRARIES.format(missing=", ".join(missing), command=command))


def _build() -> None:
    print(
        "Making .venv with the locked packages: once, about a minute ...",
        file=sys.stderr,
        flush=True,
    )
    if not _runs_in_venv():
        _make_venv()
    said = ""
    for command in _installers():
        code, said = _quietly(command)
        if code == 0:
            STAMP.write_text(_digest(), encoding="utf-8")
            return
    print(said, file=sys.stderr)
    _end(NO_PACKAGES)


def _make_venv() -> None:
    settings = VENV / "pyvenv.cfg"
    version = "= {}.{}.".format(*sys.version_info[:2])
    whole = _python().exists() and settings.exists()
    if whole and version in settings.read_text(encoding="utf-8"):
        return
    if VENV.exists():  # of another Python, or half made
        shutil.rmtree(VENV)
    code, said = _quietly([sys.executable, "-m", "venv", "--without-pip", str(VENV)])
    if code != 0:
        print(said, file=sys.stderr)
        _end(NO_ENVIRONMENT)


def _installers() -> Iterator[list[str]]:
    """Ways to install, to be tried in turn. Where packages come from is pip's or uv's own setting."""
    python = str(_python())
    locked = ["--require-hashes", "--only-binary", ":all:"]
    uv = shutil.which("uv")
    if uv:
        yield [uv, "pip", "sync", *locked, "--python", python, str(LOCK)]
    install = ["install", *locked, "--no-deps", "--no-compile", "-r", str(LOCK)]
    if util.find_spec("pip"):
        yield [sys.executable, "-m", "pip", "--python", python, *install]
        return
    outside = getattr(sys, "_base_executable", sys.executable)  # .venv has no pip
    yield [outside, "-m", "pip", "--python", python, *install]
    if _quietly([python, "-m", "ensurepip"])[0] == 0:
        yield [python, "-m", "pip", *install]


def _quietly(command: list[str]) -> tuple[int, str]:
    """Run without asking anything; the exit code and what was said on standard error."""
    leave_out = ("PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "CONDA_PREFIX")
    env = {key: value for key, value in os.environ.items() if key not in leave_out}
    env["PIP_NO_INPUT"] = env["PIP_DISABLE_PIP_VERSION_CHECK"] = "1"
    env["DEBIAN_FRONTEND"] = "noninteractive"
    try:
        done = subprocess.run(
            command,
            env=env,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
        )
    except OSError as trouble:
        return 1, str(trouble)
    return done.returncode, done.stderr.strip()


def _run_again() -> NoReturn:
    command = [str(_python()), *sys.argv]
    if os.name == "nt":
        sys.exit(subprocess.call(command))
    sys.stdout.flush()
    sys.stderr.flush()
    os.execv(command[0], command)  # noqa: S606 - no shell is wanted


def _runs_in_venv() -> bool:
    return Path(sys.prefix).resolve() == VENV.resolve()


def _stamped() -> bool:
    """Whether .venv was finished, for this lock and this Python."""
    return (
        _python().exists()
        and STAMP.exists()
        and STAMP.read_text(encoding="utf-8") == _digest()
    )


def _digest() -> str:
    python = repr(sys.version_info[:2]).encode()
    return hashlib.sha256(LOCK.read_bytes() + python).hexdigest()


def _python() -> Path:
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _name(requirement: str) -> str:
    """argon2_cffi>=25 or coverage[toml] -> argon2-cffi, coverage."""
    letters = requirement.strip()
    for at, letter in enumerate(letters):
        if not (letter.isalnum() or letter in "-_."):
            letters = letters[:at]
            break
    return letters.lower().replace("_", "-").replace(".", "-")


def _end(sentence: str) -> NoReturn:
    sys.exit(sentence)
