"""Packs and quantities in the languages of the papers; a pack that no language knows keeps its own word."""

from decimal import Decimal

from lims.batches.models import FillLot
from specs.numbers import read

GERMAN = {  # one, several
    "drum": ("Fass", "Fässer"),
    "pail": ("Eimer", "Eimer"),
    "keg": ("Hobbock", "Hobbocks"),
    "cartridge": ("Kartusche", "Kartuschen"),
    "tote": ("Großbehälter", "Großbehälter"),
}


def counted(count: int, pack: str, language: str = "en") -> str:
    """A number of packs: 4 drums, 1 Fass."""
    one, several = (pack, f"{pack}s")
    if language == "de":
        one, several = GERMAN.get(pack, (pack, pack))
    return f"{count} {one if count == 1 else several}"


def delivered(lot: FillLot, count: int, language: str = "en") -> str:
    """What leaves and its net mass: 4 drums, 720 kg net."""
    net = read(lot.pack_kg).value * Decimal(count)
    return f"{counted(count, lot.pack, language)}, {_figure(net, language)} kg {_net(language)}"


def filled(lot: FillLot, language: str = "en") -> str:
    """The whole lot: A, 30 drums of 180 kg."""
    each = _figure(read(lot.pack_kg).value, language)
    joint = "zu" if language == "de" else "of"
    return (
        f"{lot.letter}, {counted(lot.pack_count, lot.pack, language)} {joint} {each} kg"
    )


def _net(language: str) -> str:
    return "netto" if language == "de" else "net"


def _figure(mass: Decimal, language: str) -> str:
    text = f"{mass:f}"
    return text.replace(".", ",") if language == "de" else text
