"""Printed papers for the tests, their text, and which tests this machine cannot run."""

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.factories import fills, plant

JAXB = Path("/usr/share/java/jaxb-api.jar")
LEFT_OUT = pytest.StashKey[list[str]]()
HERE = Path(__file__).parent


def pytest_collection_modifyitems(
    config: pytest.Config, items: list[pytest.Item]
) -> None:
    """Without Java, JAXB or pdftotext the tests that need them are deselected and named."""
    has_java = shutil.which("java") is not None and JAXB.exists()
    has_text = shutil.which("pdftotext") is not None

    def lacks(item: pytest.Item) -> bool:
        if HERE not in item.path.parents:
            return False
        fixtures = getattr(item, "fixturenames", ())
        needs_text = "text_of" in fixtures or "running_text_of" in fixtures
        needs_java = item.get_closest_marker("java") is not None
        return (needs_java and not has_java) or (needs_text and not has_text)

    left_out = [item for item in items if lacks(item)]
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]
    config.stash[LEFT_OUT] = [item.name for item in left_out]


def pytest_report_collectionfinish(config: pytest.Config) -> list[str]:
    names = config.stash.get(LEFT_OUT, [])
    return [f"not run, Java, JAXB or pdftotext missing: {name}" for name in names]


def pages_of(pdf: bytes, file: Path, *options: str) -> list[str]:
    file.write_bytes(pdf)
    found = subprocess.run(  # noqa: S603 - our own file
        ["pdftotext", *options, str(file), "-"],  # noqa: S607
        capture_output=True,
        check=True,
    )
    sheets = found.stdout.decode().removesuffix("\f").split("\f")
    return [re.sub(r"\s+", " ", sheet) for sheet in sheets]


@pytest.fixture
def text_of(tmp_path: Path) -> Callable[[bytes], list[str]]:
    """The text of each page as it lies on the paper, line by line, white space evened out."""
    return lambda pdf: pages_of(pdf, tmp_path / "paper.pdf", "-layout")


@pytest.fixture
def running_text_of(tmp_path: Path) -> Callable[[bytes], list[str]]:
    """The text of each page in the order in which it is read, column by column."""
    return lambda pdf: pages_of(pdf, tmp_path / "paper.pdf", "-raw")


@pytest.fixture
def played(db):
    plant.open_plant()
    plant.play(plant.periodic_pass())


@pytest.fixture
def repeated(played):
    """Lot 0417 A whose penetration took four sets: one too wide, one set aside by the repeat rule."""
    fills.disagreeing()
    fills.fill("281 283 282")
    return plant.lot()
