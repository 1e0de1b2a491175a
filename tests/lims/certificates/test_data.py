"""A certificate's data: frozen, exact as text, refused when they contradict themselves."""

import dataclasses
import json

import pytest

from lims.certificates.data import (
    CertificateData,
    Finding,
    Ruled,
    UnfitDataError,
    numbered,
)
from tests.lims.documents import samples


@pytest.mark.parametrize(
    "data",
    [samples.ONE_LOT, samples.GERMAN, samples.NOT_MET, samples.PREVIEW, samples.LETTER],
)
def test_data_come_back_from_text_exactly(data: CertificateData) -> None:
    text = data.to_json()

    again = CertificateData.from_json(text)

    assert again == data
    assert again.to_json() == text


def test_data_that_were_issued_before_rules_had_zones_read_back_as_they_stand() -> None:
    text = samples.ONE_LOT.to_json()
    row = json.loads(text)["rows"][0]

    assert "ruled" not in row
    assert CertificateData.from_json(text).rows[0].ruled is None


def test_a_rule_with_a_zone_comes_back_from_text_exactly() -> None:
    ruled = Ruled(rule="guarded acceptance", lower="268.55", upper="291.45")
    row = dataclasses.replace(samples.ROWS[0], ruled=ruled)
    data = dataclasses.replace(samples.ONE_LOT, rows=(row,))

    again = CertificateData.from_json(data.to_json())

    assert again.rows[0].ruled == ruled
    assert again.to_json() == data.to_json()


@pytest.mark.parametrize(
    ("ruled", "sentence"),
    [
        ({"rule": "guarded acceptance"}, "parts of Ruled"),
        ("guarded acceptance", "parts of Ruled"),
    ],
)
def test_a_rule_that_is_not_whole_is_refused(ruled: object, sentence: str) -> None:
    found = json.loads(samples.ONE_LOT.to_json())
    found["rows"][0]["ruled"] = ruled

    with pytest.raises(UnfitDataError, match=sentence):
        CertificateData.from_json(json.dumps(found))


def test_the_finding_counts_only_rows_with_a_verdict() -> None:
    assert samples.NOT_MET.finding == Finding(
        total=5,
        met=2,
        on_lot=4,
        not_met=(1,),
        not_tested=(4,),
        not_evaluated=(5,),
    )
    assert samples.ONE_LOT.finding == Finding(total=7, met=7, on_lot=6, periodic=(7,))


def changed(**parts: object) -> str:
    return json.dumps(json.loads(samples.ONE_LOT.to_json()) | parts)


@pytest.mark.parametrize(
    ("parts", "sentence"),
    [
        ({"schema": "kettlemark-certificate/2"}, "not of kettlemark-certificate/1"),
        ({"extra": 1}, "parts of CertificateData"),
        ({"revision": "0"}, "not of the expected kind"),
        ({"revision": True}, "not of the expected kind"),
        ({"language": "it"}, "not one of"),
        ({"rows": []}, "at least one requirement"),
        ({"rows": {}}, "A list is missing"),
        ({"number": None}, "A preview has no number"),
        ({"signatures": []}, "needs number, revision, code, record and a signature"),
        ({"code": "7K3M9"}, "26 characters"),
        ({"code": "7K3M9QX2VD0BTHR5WN8GAZ4CJU"}, "26 characters"),
        ({"issued_at": "2026-03-06T16:05:00"}, "offset"),
    ],
)
def test_data_that_contradict_themselves_are_refused(
    parts: dict[str, object], sentence: str
) -> None:
    with pytest.raises(UnfitDataError, match=sentence):
        CertificateData.from_json(changed(**parts))


def test_a_finding_that_does_not_follow_from_the_rows_is_refused() -> None:
    found = json.loads(samples.NOT_MET.to_json())
    found["finding"] |= {"met": 5, "not_met": []}

    with pytest.raises(UnfitDataError, match="does not follow"):
        CertificateData.from_json(json.dumps(found))


def test_a_result_from_elsewhere_must_say_where() -> None:
    row = dataclasses.replace(samples.ROWS[6], tested_on=None)

    with pytest.raises(UnfitDataError, match="Line 7: say where"):
        dataclasses.replace(samples.ONE_LOT, rows=(row,))


def test_two_rows_do_not_share_a_line() -> None:
    with pytest.raises(UnfitDataError, match="same line number"):
        dataclasses.replace(samples.ONE_LOT, rows=(samples.ROWS[0], samples.ROWS[0]))


def test_rows_are_numbered_in_the_order_of_print() -> None:
    rows = numbered((samples.ROWS[6], samples.ROWS[1], samples.ROWS[0]))

    assert [(row.line, row.characteristic) for row in rows] == [
        (1, "Change of penetration"),
        (2, "Worked penetration"),
        (3, "Oxidation"),
    ]


@pytest.mark.parametrize(
    "address",
    ["https://lab.example", "https://lab.example/", "https://lab.example/check/"],
)
def test_the_check_address_ends_in_check(address: str) -> None:
    data = dataclasses.replace(samples.ONE_LOT, check_address=address)

    assert data.check_root == "https://lab.example/check/"
