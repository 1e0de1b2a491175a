"""Packs, one and several, and what is said of them. Words of the trade: common practice, no source."""

from lims.wording.catalogue.said import Counted, Said

PACKS: dict[str, Counted] = {
    "drum": Counted(
        en=("drum", "drums"),
        de=("Fass", "Fässer"),
        fr=("fût", "fûts"),
        es=("bidón", "bidones"),
        pl=("beczka", "beczki", "beczek"),
    ),
    "pail": Counted(
        en=("pail", "pails"),
        de=("Eimer", "Eimer"),
        fr=("seau", "seaux"),
        es=("cubo", "cubos"),
        pl=("wiadro", "wiadra", "wiader"),
    ),
    "keg": Counted(
        en=("keg", "kegs"),
        de=("Hobbock", "Hobbocks"),
        fr=("tonnelet", "tonnelets"),
        es=("cuñete", "cuñetes"),
        pl=("hobok", "hoboki", "hoboków"),
    ),
    "cartridge": Counted(
        en=("cartridge", "cartridges"),
        de=("Kartusche", "Kartuschen"),
        fr=("cartouche", "cartouches"),
        es=("cartucho", "cartuchos"),
        pl=("kartusz", "kartusze", "kartuszy"),
    ),
    "tote": Counted(
        en=("tote", "totes"),
        de=("Großbehälter", "Großbehälter"),
        fr=("conteneur", "conteneurs"),
        es=("contenedor", "contenedores"),
        pl=("kontener", "kontenery", "kontenerów"),
    ),
}

SENTENCES: dict[str, Said] = {
    "delivered": Said(
        en="{packs}, {mass} kg net",
        de="{packs}, {mass} kg netto",
        fr="{packs}, {mass} kg net",
        es="{packs}, {mass} kg neto",
        pl="{packs}, {mass} kg netto",
    ),
    "filled": Said(
        en="{lot}, {packs} of {each} kg",
        de="{lot}, {packs} zu {each} kg",
        fr="{lot}, {packs} de {each} kg",
        es="{lot}, {packs} de {each} kg",
        pl="{lot}, {packs} po {each} kg",
    ),
}
