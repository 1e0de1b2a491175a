"""Templates of the paper, in an engine of their own: always escaped, no request, no tags of the screens."""

import base64
import io
from functools import cache
from pathlib import Path

import segno
from django.template import Context, Engine

TEMPLATES = Path(__file__).resolve().parents[2] / "templates"
# Signs that no page can carry: XML, and so the PDF's metadata, has no place for them.
UNPRINTABLE = dict.fromkeys(
    [*range(9), 11, 12, *range(14, 32), 0xFFFE, 0xFFFF, *range(0xD800, 0xE000)]
)


@cache
def _engine() -> Engine:
    return Engine(dirs=[str(TEMPLATES)], autoescape=True)


def page(template: str, context: dict[str, object]) -> str:
    """The HTML of a template."""
    made = _engine().get_template(template).render(Context(context))
    return str(made).translate(UNPRINTABLE)


def qr(text: str, *, error: str = "m") -> str:
    """A QR code as the address of an SVG picture."""
    out = io.BytesIO()
    code = segno.make(text, error=error, boost_error=False, micro=False)
    code.save(out, kind="svg", border=0, xmldecl=False, svgns=True, omitsize=True)
    return "data:image/svg+xml;base64," + base64.b64encode(out.getvalue()).decode()
