"""Packs and quantities in the languages of the papers; a pack that no language knows keeps its own word."""

from decimal import Decimal

from lims.batches.models import FillLot
from lims.wording.catalogue.packs import PACKS, SENTENCES
from lims.wording.languages import Language
from lims.wording.numbers import shown
from specs.numbers import read


def counted(count: int, pack: str, language: Language = "en") -> str:
    """A number of packs: 4 drums, 1 Fass, 5 beczek."""
    if pack in PACKS:
        return f"{count} {PACKS[pack].into(count, language)}"
    return f"{count} {pack}" + ("s" if language == "en" and count != 1 else "")


def delivered(lot: FillLot, count: int, language: Language = "en") -> str:
    """What leaves and its net mass: 4 drums, 720 kg net."""
    net = read(lot.pack_kg).value * Decimal(count)
    packs = counted(count, lot.pack, language)
    said = SENTENCES["delivered"].into(language)
    return said.format(packs=packs, mass=shown(net, language))


def filled(lot: FillLot, language: Language = "en") -> str:
    """The whole lot: A, 30 drums of 180 kg."""
    packs = counted(lot.pack_count, lot.pack, language)
    each = shown(read(lot.pack_kg).value, language)
    said = SENTENCES["filled"].into(language)
    return said.format(lot=lot.letter, packs=packs, each=each)
