"""Decision rules and procedures for comparing, in words. Terms of JCGM 106, ISO 4259 and ISO 80000-1 in each language from memory."""

from lims.wording.catalogue.said import Said

RULES: dict[str, Said] = {
    "simple acceptance": Said(
        en="simple acceptance, without a guard band",
        de="einfache Annahme, ohne Schutzabstand",
        fr="acceptation simple, sans bande de garde",
        es="aceptación simple, sin banda de guarda",
        pl="prosta akceptacja, bez pasma ochronnego",
    ),
    "guarded acceptance": Said(
        en="guarded acceptance",
        de="Annahme mit Schutzabstand",
        fr="acceptation avec bande de garde",
        es="aceptación con banda de guarda",
        pl="akceptacja z pasmem ochronnym",
    ),
    "bound of ISO 4259, recipient": Said(
        en="bound of ISO 4259 for the recipient",
        de="Schranke nach ISO 4259 für den Empfänger",
        fr="borne de l’ISO 4259 pour le destinataire",
        es="límite de ISO 4259 para el receptor",
        pl="granica według ISO 4259 dla odbiorcy",
    ),
    "bound of ISO 4259, supplier": Said(
        en="bound of ISO 4259 for the supplier",
        de="Schranke nach ISO 4259 für den Lieferer",
        fr="borne de l’ISO 4259 pour le fournisseur",
        es="límite de ISO 4259 para el proveedor",
        pl="granica według ISO 4259 dla dostawcy",
    ),
}

PROCEDURES: dict[str, Said] = {
    "rounding": Said(
        en="Each reported value, rounded once to the last place of its limit (half to even), is compared with the limit.",
        de="Jeder berichtete Wert wird einmal auf die letzte Stelle seines Grenzwerts gerundet (halb zu gerade) und mit dem Grenzwert verglichen.",
        fr="Chaque valeur rapportée, arrondie une seule fois au rang du dernier chiffre de sa limite (arrondi au pair), est comparée à la limite.",
        es="Cada valor informado, redondeado una sola vez a la última cifra de su límite (mitad al par), se compara con el límite.",
        pl="Każdą podaną wartość zaokrągla się jeden raz do ostatniego miejsca wartości granicznej (połówki do parzystej) i z nią porównuje.",
    ),
    "absolute": Said(
        en="Each reported value is compared with the limit as it stands, without rounding.",
        de="Jeder berichtete Wert wird ohne Rundung so mit dem Grenzwert verglichen, wie er steht.",
        fr="Chaque valeur rapportée est comparée à la limite telle quelle, sans arrondi.",
        es="Cada valor informado se compara con el límite tal como está, sin redondeo.",
        pl="Każdą podaną wartość porównuje się z wartością graniczną bez zaokrąglania.",
    ),
}

UNITS: dict[str, Said] = {
    "mass %": Said(
        en="mass %",
        de="Massen-%",
        fr="% (m/m)",
        es="% (m/m)",
        pl="% (m/m)",
    ),
    "volume %": Said(
        en="volume %",
        de="Volumen-%",
        fr="% (V/V)",
        es="% (V/V)",
        pl="% (V/V)",
    ),
}
