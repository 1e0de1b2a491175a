"""Names that try to be markup, templates or addresses are printed as they are and fetch nothing."""

import base64
import contextlib
import io
import re
import socket
from collections.abc import Callable, Iterator
from dataclasses import replace

import pikepdf
import pytest

from lims.certificates.data import Fact, ProductNamed
from lims.documents.certificate import print_certificate
from lims.documents.labels import SampleLabel, print_label
from lims.documents.pages import qr
from lims.documents.pdf import ForeignAddressError, pressed
from tests.lims.documents import samples

TextOf = Callable[[bytes], list[str]]

NAMES = (
    "<img src=http://127.0.0.1:{port}/a>",
    '"><img src="http://127.0.0.1:{port}/b" onerror=alert(1)>',
    "<link rel=attachment href=file:///etc/passwd>",
    "<link rel=stylesheet href=http://127.0.0.1:{port}/c>",
    "<object data=http://127.0.0.1:{port}/d></object>",
    '"><style>*{{display:none}}</style>',
    "<style>@import url(http://127.0.0.1:{port}/e)</style>",
    "</script><script>alert(1)</script>",
    "{{{{7*7}}}}",
    "{{% debug %}}",
    "${{7*7}}",
    "=cmd|' /C calc'!A0",
    "'; DROP TABLE batch; --",
)
PAGES = (
    "<img alt=x src=http://127.0.0.1:{port}/a>",
    "<link rel=attachment href=http://127.0.0.1:{port}/b>",
    "<link rel=attachment href=file:///etc/hostname>",
    "<link rel=stylesheet href=http://127.0.0.1:{port}/c>",
    "<style>@import url(http://127.0.0.1:{port}/d)</style>",
    '<p style="background: url(http://127.0.0.1:{port}/e)">x</p>',
    "<object data=http://127.0.0.1:{port}/f></object>",
    "<img alt=x src=asset:../pdf.py>",
    "<img alt=x src=asset:fonts/../../pdf.py>",
    "<img alt=x src=data:image/png;base64,AAAA>",
)


@pytest.fixture
def listener() -> Iterator[socket.socket]:
    with contextlib.closing(socket.create_server(("127.0.0.1", 0))) as server:
        server.setblocking(False)
        yield server


def nobody_called(listener: socket.socket) -> bool:
    try:
        listener.accept()
    except BlockingIOError:
        return True
    return False


def without_breaks(text: str) -> str:
    """Narrow columns break long names: compare without white space."""
    return re.sub(r"\s", "", text)


@pytest.mark.parametrize("name", NAMES)
def test_a_hostile_name_is_printed_literally_and_fetches_nothing(
    name: str, listener: socket.socket, running_text_of: TextOf
) -> None:
    written = name.format(port=listener.getsockname()[1])
    data = replace(
        samples.ONE_LOT,
        product=ProductNamed(code="LX2", name=f"LX2 {written}", designation=written),
        customer=(Fact("Customer", written), Fact(written, "TT-7781")),
        specification=written,
    )

    pdf = print_certificate(data)

    text = without_breaks(" ".join(running_text_of(pdf)))
    assert f"LX2{without_breaks(written)}" in text
    assert f"Resultsagainst{without_breaks(written)}" in text
    assert nobody_called(listener)
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        assert list(opened.attachments) == ["certificate.json"]
        assert opened.Root.get("/OpenAction") is None


@pytest.mark.parametrize("page", PAGES)
def test_a_page_that_asks_for_anything_else_is_not_printed(
    page: str, listener: socket.socket
) -> None:
    written = page.format(port=listener.getsockname()[1])
    html = f"<html lang=en><title>t</title><body>{written}"

    with pytest.raises(ForeignAddressError, match="not part of the paper"):
        pressed(html, "certificate.css", "x")

    assert nobody_called(listener)


def test_a_picture_written_into_the_page_cannot_fetch_another(
    listener: socket.socket,
) -> None:
    port = listener.getsockname()[1]
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">'
        f'<image href="http://127.0.0.1:{port}/g" width="9" height="9"/></svg>'
    )
    address = "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode()
    html = f"<html lang=en><title>t</title><body><img alt=x src={address}>"

    pressed(html, "certificate.css", "x")

    assert nobody_called(listener)


def test_signs_that_no_page_can_carry_are_left_out(text_of: TextOf) -> None:
    data = replace(
        samples.ONE_LOT, customer=(Fact("Customer", "Tal\x00low\x0b\ufffe"),)
    )

    [text] = text_of(print_certificate(data))

    assert "Tallow" in text


def test_a_hostile_product_stays_text_on_a_label(text_of: TextOf) -> None:
    label = SampleLabel(
        number="Q1-26-0417-A-01",
        product="<b>LX2</b> {{7*7}}",
        lot="Q1-26-0417 A",
        taken_on="2026-03-05",
    )

    [text] = text_of(print_label(label))

    assert "<b>LX2</b> {{7*7}}" in text


def test_a_qr_code_is_a_picture_of_its_text_alone() -> None:
    assert qr("Q1-26-0417-A-01", error="q") != qr("Q1-26-0417-A-02", error="q")
    assert qr("x").startswith("data:image/svg+xml;base64,")
