"""What was found, as the reader at the goods-in door sees it first."""

from lims.wording.catalogue.said import Counted, Said

SENTENCES: dict[str, Said] = {
    "both_met": Said(
        en="Both requirements met.",
        de="Beide Anforderungen erfüllt.",
        fr="Les deux exigences sont satisfaites.",
        es="Se cumplen ambos requisitos.",
        pl="Spełniono oba wymagania.",
    ),
    "one_met": Said(
        en="The one requirement is met.",
        de="Die eine Anforderung ist erfüllt.",
        fr="L’unique exigence est satisfaite.",
        es="El único requisito se cumple.",
        pl="Jedyne wymaganie jest spełnione.",
    ),
    "one_not_met": Said(
        en="The one requirement",
        de="Die eine Anforderung",
        fr="L’unique exigence",
        es="El único requisito",
        pl="Jedyne wymaganie",
    ),
    "nothing_to_meet": Said(
        en="Results reported; no requirement has a limit.",
        de="Ergebnisse berichtet; keine Anforderung hat einen Grenzwert.",
        fr="Résultats rapportés ; aucune exigence n’a de limite.",
        es="Se informan los resultados; ningún requisito tiene límite.",
        pl="Podano wyniki; żadne wymaganie nie ma wartości granicznej.",
    ),
    "so_far": Said(
        en="So far:",
        de="Bisher:",
        fr="À ce stade :",
        es="Hasta ahora:",
        pl="Dotychczas:",
    ),
    "all_on_lot": Said(
        en="All were tested on this lot.",
        de="Alle wurden an diesem Los geprüft.",
        fr="Toutes ont été essayées sur ce lot.",
        es="Todos se ensayaron en este lote.",
        pl="Wszystkie zbadano na tej partii.",
    ),
    "it_on_lot": Said(
        en="It was tested on this lot.",
        de="Sie wurde an diesem Los geprüft.",
        fr="Elle a été essayée sur ce lot.",
        es="Se ensayó en este lote.",
        pl="Zbadano je na tej partii.",
    ),
    "and": Said(
        en="and",
        de="und",
        fr="et",
        es="y",
        pl="i",
    ),
    "not_for_release": Said(
        en="Not authorised: nothing here may be used for release or delivery.",
        de="Nicht freigegeben: nichts hiervon darf für Freigabe oder Lieferung gebraucht werden.",
        fr="Non autorisé : rien ici ne peut servir à une libération ni à une livraison.",
        es="No autorizado: nada de lo que aquí figura puede usarse para una liberación ni una entrega.",
        pl="Niezatwierdzone: niczego stąd nie wolno użyć do zwolnienia ani do dostawy.",
    ),
    "not_for_delivery": Said(
        en="Not issued: nothing here may be used for delivery.",
        de="Nicht ausgestellt: nichts hiervon darf für eine Lieferung gebraucht werden.",
        fr="Non délivré : rien ici ne peut servir à une livraison.",
        es="No emitido: nada de lo que aquí figura puede usarse para una entrega.",
        pl="Niewystawione: niczego stąd nie wolno użyć do dostawy.",
    ),
    "none_met": Said(
        en="None of {n} requirements met.",
        de="Keine von {n} Anforderungen erfüllt.",
        fr="Aucune des {n} exigences n’est satisfaite.",
        es="No se cumple ninguno de los {n} requisitos.",
        pl="Nie spełniono żadnego z {n} wymagań.",
    ),
    "one_open": Said(
        en="The one requirement is not known to be met.",
        de="Ob die eine Anforderung erfüllt ist, steht nicht fest.",
        fr="Rien n’établit que l’unique exigence est satisfaite.",
        es="No consta que se cumpla el único requisito.",
        pl="Nie ustalono, czy jedyne wymaganie jest spełnione.",
    ),
    "none_on_lot": Said(
        en="None was tested on this lot",
        de="Keine wurde an diesem Los geprüft",
        fr="Aucune n’a été essayée sur ce lot",
        es="Ninguno se ensayó en este lote",
        pl="Żadnego nie zbadano na tej partii",
    ),
}

COUNTED: dict[str, Counted] = {
    "all_met": Counted(
        en=("All {n} requirements met.", "All {n} requirements met."),
        de=("Alle {n} Anforderungen erfüllt.", "Alle {n} Anforderungen erfüllt."),
        fr=(
            "Les {n} exigences sont satisfaites.",
            "Les {n} exigences sont satisfaites.",
        ),
        es=("Se cumplen los {n} requisitos.", "Se cumplen los {n} requisitos."),
        pl=(
            "Spełniono {n} wymaganie.",
            "Spełniono wszystkie {n} wymagania.",
            "Spełniono wszystkie {n} wymagań.",
        ),
    ),
    "some_met": Counted(
        en=("{k} of {n} requirements met.", "{k} of {n} requirements met."),
        de=("{k} von {n} Anforderungen erfüllt.", "{k} von {n} Anforderungen erfüllt."),
        fr=(
            "{k} des {n} exigences est satisfaite.",
            "{k} des {n} exigences sont satisfaites.",
        ),
        es=(
            "Se cumple {k} de los {n} requisitos.",
            "Se cumplen {k} de los {n} requisitos.",
        ),
        pl=(
            "Spełniono {k} z {n} wymagań.",
            "Spełniono {k} z {n} wymagań.",
            "Spełniono {k} z {n} wymagań.",
        ),
    ),
    "some_not_met": Counted(
        en=("{k} of {n} requirements", "{k} of {n} requirements"),
        de=("{k} von {n} Anforderungen", "{k} von {n} Anforderungen"),
        fr=("{k} exigence sur {n}", "{k} exigences sur {n}"),
        es=("{k} de {n} requisitos", "{k} de {n} requisitos"),
        pl=("{k} z {n} wymagań", "{k} z {n} wymagań", "{k} z {n} wymagań"),
    ),
    "marked_not_met": Counted(
        en=("not met", "not met"),
        de=("nicht erfüllt", "nicht erfüllt"),
        fr=("non satisfaite", "non satisfaites"),
        es=("no cumplido", "no cumplidos"),
        pl=("niespełnione", "niespełnione", "niespełnionych"),
    ),
    "not_met_named": Counted(
        en=("Requirement not met: {names}.", "Requirements not met: {names}."),
        de=(
            "Anforderung nicht erfüllt: {names}.",
            "Anforderungen nicht erfüllt: {names}.",
        ),
        fr=(
            "Exigence non satisfaite : {names}.",
            "Exigences non satisfaites : {names}.",
        ),
        es=(
            "Requisito no cumplido: {names}.",
            "Requisitos no cumplidos: {names}.",
        ),
        pl=(
            "Wymaganie niespełnione: {names}.",
            "Wymagania niespełnione: {names}.",
            "Wymagania niespełnione: {names}.",
        ),
    ),
    "not_tested_named": Counted(
        en=("Not tested: {names}.", "Not tested: {names}."),
        de=("Nicht geprüft: {names}.", "Nicht geprüft: {names}."),
        fr=(
            "Caractéristique non essayée : {names}.",
            "Caractéristiques non essayées : {names}.",
        ),
        es=("Sin ensayar: {names}.", "Sin ensayar: {names}."),
        pl=("Nie badano: {names}.", "Nie badano: {names}.", "Nie badano: {names}."),
    ),
    "not_evaluated_named": Counted(
        en=("Not evaluated: {names}.", "Not evaluated: {names}."),
        de=("Nicht bewertet: {names}.", "Nicht bewertet: {names}."),
        fr=(
            "Caractéristique non évaluée : {names}.",
            "Caractéristiques non évaluées : {names}.",
        ),
        es=("Sin evaluar: {names}.", "Sin evaluar: {names}."),
        pl=(
            "Nie oceniono: {names}.",
            "Nie oceniono: {names}.",
            "Nie oceniono: {names}.",
        ),
    ),
    "on_lot": Counted(
        en=("{n} was tested on this lot", "{n} were tested on this lot"),
        de=("{n} wurde an diesem Los geprüft", "{n} wurden an diesem Los geprüft"),
        fr=(
            "{n} a été essayée sur ce lot",
            "{n} ont été essayées sur ce lot",
        ),
        es=(
            "{n} se ensayó en este lote",
            "{n} se ensayaron en este lote",
        ),
        pl=(
            "{n} zbadano na tej partii",
            "{n} zbadano na tej partii",
            "{n} zbadano na tej partii",
        ),
    ),
    "lines_on_batch": Counted(
        en=(
            "line {lines} was tested on this batch",
            "lines {lines} were tested on this batch",
        ),
        de=(
            "Zeile {lines} wurde an dieser Charge geprüft",
            "Zeilen {lines} wurden an dieser Charge geprüft",
        ),
        fr=(
            "la ligne {lines} a été essayée sur cette fabrication",
            "les lignes {lines} ont été essayées sur cette fabrication",
        ),
        es=(
            "la línea {lines} se ensayó en esta fabricación",
            "las líneas {lines} se ensayaron en esta fabricación",
        ),
        pl=(
            "pozycję {lines} zbadano na tej szarży",
            "pozycje {lines} zbadano na tej szarży",
            "pozycje {lines} zbadano na tej szarży",
        ),
    ),
    "lines_periodic": Counted(
        en=("line {lines} is periodic", "lines {lines} are periodic"),
        de=("Zeile {lines} ist periodisch", "Zeilen {lines} sind periodisch"),
        fr=(
            "la ligne {lines} relève d’un essai périodique",
            "les lignes {lines} relèvent d’essais périodiques",
        ),
        es=(
            "la línea {lines} procede de un ensayo periódico",
            "las líneas {lines} proceden de ensayos periódicos",
        ),
        pl=(
            "pozycja {lines} pochodzi z badania okresowego",
            "pozycje {lines} pochodzą z badań okresowych",
            "pozycje {lines} pochodzą z badań okresowych",
        ),
    ),
}
