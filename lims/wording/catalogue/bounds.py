"""Limits in words, and what a ruler says of them."""

from lims.wording.catalogue.said import Counted, Said

SENTENCES: dict[str, Said] = {
    "to": Said(
        en="{lower} to {upper}",
        de="{lower} bis {upper}",
        fr="{lower} à {upper}",
        es="{lower} a {upper}",
        pl="{lower} do {upper}",
    ),
    "most": Said(
        en="at most {upper}",
        de="höchstens {upper}",
        fr="au plus {upper}",
        es="como máximo {upper}",
        pl="najwyżej {upper}",
    ),
    "least": Said(
        en="at least {lower}",
        de="mindestens {lower}",
        fr="au moins {lower}",
        es="como mínimo {lower}",
        pl="co najmniej {lower}",
    ),
    "none": Said(
        en="no limit",
        de="keine Grenze",
        fr="pas de limite",
        es="sin límite",
        pl="bez granicy",
    ),
    "other": Said(
        en="from another batch",
        de="aus einer anderen Charge",
        fr="d’une autre fabrication",
        es="de otra fabricación",
        pl="z innej szarży",
    ),
    "internal": Said(
        en="Hatched: inside the limits, outside the internal band {band}.",
        de="Schraffiert: innerhalb der Grenzen, außerhalb des internen Bands {band}.",
        fr="Hachuré : dans les limites, hors de la bande interne {band}.",
        es="Rayado: dentro de los límites, fuera de la banda interna {band}.",
        pl="Zakreskowane: w granicach, poza pasmem wewnętrznym {band}.",
    ),
    "accept": Said(
        en="The decision rule accepts {band}.",
        de="Die Entscheidungsregel nimmt {band} an.",
        fr="La règle de décision accepte {band}.",
        es="La regla de decisión acepta {band}.",
        pl="Zasada podejmowania decyzji akceptuje {band}.",
    ),
    "drops": Said(
        en="Readings {values}.",
        de="Ablesungen {values}.",
        fr="Lectures {values}.",
        es="Lecturas {values}.",
        pl="Odczyty {values}.",
    ),
    "aside": Said(
        en="Set aside {values}.",
        de="Verworfen {values}.",
        fr="Écartées {values}.",
        es="Apartadas {values}.",
        pl="Odrzucone {values}.",
    ),
}
COUNTED: dict[str, Counted] = {
    "last": Counted(
        en=("last lot {low}", "last {count} lots {low} to {high}"),
        de=("letztes Los {low}", "letzte {count} Lose {low} bis {high}"),
        fr=("dernier lot {low}", "{count} derniers lots {low} à {high}"),
        es=("último lote {low}", "últimos {count} lotes {low} a {high}"),
        pl=(
            "ostatnia partia {low}",
            "ostatnie {count} partie {low} do {high}",
            "ostatnich {count} partii {low} do {high}",
        ),
    ),
}
