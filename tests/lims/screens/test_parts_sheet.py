"""The style sheet: two dark sets that are equal, contrast that suffices, nothing fetched from elsewhere."""

import re
from itertools import product
from pathlib import Path

import pytest

FOLDER = Path(__file__).parents[3] / "lims" / "static" / "kettlemark"
SHEET = (FOLDER / "kettlemark.css").read_text(encoding="utf-8")
NARROW = (FOLDER / "narrow.css").read_text(encoding="utf-8")
GROUNDS = ("paper", "sheet", "sunk")
TEXTS = ("ink", "ink-2", "steel", "green", "red", "brass")


def tokens(block: str) -> dict[str, str]:
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block))


def block(start: str) -> str:
    begins = SHEET.index(start)
    return SHEET[begins : SHEET.index("}", begins)]


LIGHT = tokens(block(":root {"))
DARK_CHOSEN = tokens(block(':root[data-theme="dark"] {'))
DARK_OF_THE_DEVICE = tokens(block(':root:not([data-theme="light"]) {'))


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4
        for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted([luminance(one), luminance(other)])
    return (high + 0.05) / (low + 0.05)


def test_the_dark_set_is_the_same_for_a_device_and_for_a_choice() -> None:
    assert DARK_CHOSEN == DARK_OF_THE_DEVICE
    assert set(DARK_CHOSEN) == set(LIGHT)


@pytest.mark.parametrize("theme", [LIGHT, DARK_CHOSEN], ids=["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), list(product(TEXTS, GROUNDS)))
def test_text_can_be_read_on_every_ground(
    theme: dict[str, str], text: str, ground: str
) -> None:
    assert contrast(theme[text], theme[ground]) >= 4.5


@pytest.mark.parametrize("theme", [LIGHT, DARK_CHOSEN], ids=["light", "dark"])
def test_the_edge_of_a_box_can_be_seen_on_every_ground(theme: dict[str, str]) -> None:
    assert min(contrast(theme["edge"], theme[ground]) for ground in GROUNDS) >= 3


@pytest.mark.parametrize("theme", [LIGHT, DARK_CHOSEN], ids=["light", "dark"])
@pytest.mark.parametrize("tone", ["steel", "green", "red", "brass"])
def test_a_tone_can_be_read_on_its_own_wash(theme: dict[str, str], tone: str) -> None:
    assert contrast(theme[tone], theme[f"{tone}-wash"]) >= 4.5
    assert contrast(theme["ink"], theme[f"{tone}-wash"]) >= 4.5


@pytest.mark.parametrize("sheet", [SHEET, NARROW], ids=["kettlemark", "narrow"])
def test_a_sheet_stays_short_and_fetches_nothing_from_elsewhere(sheet: str) -> None:
    assert len(sheet.splitlines()) <= 600
    assert "//" not in re.sub(r"/\*.*?\*/", "", sheet, flags=re.S)


def test_every_font_that_the_sheet_names_is_there_with_its_licence() -> None:
    named = re.findall(r'url\("(fonts/[^"]+)"\)', SHEET)

    assert len(named) == 3
    assert all((FOLDER / name).stat().st_size > 10_000 for name in named)
    assert "SIL Open Font License" in (FOLDER / "fonts" / "OFL.txt").read_text("utf-8")
