"""Looking into a drawing: its parts by class, its words, where the cone stands."""

from xml.etree import ElementTree as ET


def root(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - our own drawing


def every(svg: str, tag: str, kind: str) -> list[ET.Element]:
    """All parts of one tag that wear a class."""
    return [it for it in root(svg).iter(tag) if kind in it.get("class", "").split()]


def one(svg: str, tag: str, kind: str) -> ET.Element:
    (found,) = every(svg, tag, kind)
    return found


def text(svg: str, tag: str) -> str:
    return root(svg).findtext(tag, "")


def tip(svg: str) -> tuple[float, float, str]:
    """The cone's tip and its classes."""
    cone = one(svg, "path", "cone")
    pairs = cone.get("d", "")[1:-1].split("L")
    points = [(float(x), float(y)) for x, y in (pair.split() for pair in pairs)]
    x, y = max(points, key=lambda point: point[1])
    return x, y, cone.get("class", "")
