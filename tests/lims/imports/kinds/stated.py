"""Rows of a sheet of figures, as a plant keeps one."""

HEADS = (
    "Method and edition", "Characteristic", "Figure", "Value", "Unit", "Level from",
    "Level to", "Source", "Standing",
)  # fmt: skip
OWN_COPY = ("own copy of the standard, 12.2", "published")
D217, D6184 = "ASTM D217-21a", "ASTM D6184-17"


def row(figure="r", value="6", unit="0.1 mm", **more):
    """One figure of the worked penetration, read in the laboratory's own copy."""
    told = {
        "edition": D217,
        "characteristic": "worked-penetration",
        "figure": figure,
        "value": value,
        "unit": unit,
        "level_from": "",
        "level_to": "",
        "source": OWN_COPY[0],
        "standing": OWN_COPY[1],
    }
    assert set(more) <= set(told)
    return tuple({**told, **more}.values())


def precision(figure="r", value="6", **more):
    """A precision over the levels over which one is in force."""
    return row(figure, value, **{"level_from": "130", "level_to": "475"} | more)


def oil(figure="r", value="1.2 √m", unit="mass %", **more):
    """The same of the oil separation, of another edition."""
    about = {"edition": D6184, "characteristic": "oil-separation"}
    levels = {"level_from": "0.1", "level_to": "23.7"}
    return row(figure, value, unit, **about | levels | more)
