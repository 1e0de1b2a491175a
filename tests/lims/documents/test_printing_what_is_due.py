"""What was issued and has no file is printed from its frozen data."""

from types import SimpleNamespace

import pytest

from lims.documents import printing
from lims.documents.certificate import print_certificate
from tests.lims.documents import samples


def test_each_revision_without_a_file_gets_the_page_of_its_frozen_data(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    issued = SimpleNamespace(
        file="",
        data=samples.ONE_LOT.to_json(),
    )
    kept = []
    monkeypatch.setattr(printing, "not_printed", lambda: [issued])
    monkeypatch.setattr(
        printing.actions, "keep_file", lambda **given: kept.append(given)
    )

    printing.print_due()

    assert kept == [
        {"issued": issued, "content": print_certificate(samples.ONE_LOT), "by": None}
    ]
