"""Sampling, typical values, and who authorised."""

from lims.wording.catalogue.said import Said

SENTENCES: dict[str, Said] = {
    "plan": Said(
        en="plan {code}",
        de="Plan {code}",
        fr="le plan {code}",
        es="el plan {code}",
        pl="planu {code}",
    ),
    "typical": Said(
        en="Typical values: not results",
        de="Typische Werte: keine Ergebnisse",
        fr="Valeurs typiques : pas des résultats",
        es="Valores típicos: no son resultados",
        pl="Wartości typowe: nie są wynikami",
    ),
    "typical_note": Said(
        en="From past production; not measured on this lot, not held against a limit.",
        de="Aus früherer Herstellung; nicht an diesem Los gemessen, mit keinem Grenzwert verglichen.",
        fr="Issues de fabrications antérieures ; non mesurées sur ce lot, comparées à aucune limite.",
        es="De fabricaciones anteriores; no medidos en este lote, no comparados con ningún límite.",
        pl="Z wcześniejszej produkcji; niemierzone na tej partii, nieporównywane z żadną wartością graniczną.",
    ),
    "sampled_from_by": Said(
        en="Sampled from {place} by {plan}.",
        de="Probenahme: {place}, {plan}.",
        fr="Échantillon prélevé {place} selon {plan}.",
        es="Muestra tomada {place} según {plan}.",
        pl="Próbkę pobrano {place} według {plan}.",
    ),
    "sampled_from": Said(
        en="Sampled from {place}.",
        de="Probenahme: {place}.",
        fr="Échantillon prélevé {place}.",
        es="Muestra tomada {place}.",
        pl="Próbkę pobrano {place}.",
    ),
    "sampled_by": Said(
        en="Sampled by {plan}.",
        de="Probenahme: {plan}.",
        fr="Échantillon prélevé selon {plan}.",
        es="Muestra tomada según {plan}.",
        pl="Próbkę pobrano według {plan}.",
    ),
    "items_tested": Said(
        en="The results relate only to the items tested; copy only in full.",
        de="Die Ergebnisse gelten nur für die geprüften Gegenstände. Nur vollständig vervielfältigen.",
        fr="Les résultats ne se rapportent qu’aux objets soumis à essai ; reproduction intégrale uniquement.",
        es="Los resultados se refieren únicamente a los ítems ensayados; solo se permite la copia íntegra.",
        pl="Wyniki odnoszą się wyłącznie do badanych obiektów; kopiować tylko w całości.",
    ),
    "authorised": Said(
        en="Authorised",
        de="Freigegeben",
        fr="Autorisation",
        es="Autorización",
        pl="Zatwierdzenie",
    ),
    "electronic": Said(
        en="Signed electronically in the record; valid without a handwritten signature.",
        de="Elektronisch in der Aufzeichnung unterzeichnet; ohne handschriftliche Unterschrift gültig.",
        fr="Signé électroniquement dans le registre ; valable sans signature manuscrite.",
        es="Firmado electrónicamente en el registro; válido sin firma manuscrita.",
        pl="Podpisano elektronicznie w rejestrze; ważne bez podpisu odręcznego.",
    ),
    "not_authorised": Said(
        en="Not authorised",
        de="Nicht freigegeben",
        fr="Non autorisé",
        es="No autorizado",
        pl="Niezatwierdzone",
    ),
    "awaiting": Said(
        en="awaiting the laboratory manager",
        de="die Leitung des Laboratoriums steht aus",
        fr="en attente de la direction du laboratoire",
        es="a la espera de la dirección del laboratorio",
        pl="oczekuje na kierownika laboratorium",
    ),
    "what_is_missing": Said(
        en="A certificate has a number, a check address with QR code and a named authoriser. This page is none.",
        de="Ein Zertifikat hat eine Nummer, eine Prüfadresse mit QR-Code und eine namentliche Freigabe. Dieses Blatt ist keines.",
        fr="Un certificat porte un numéro, une adresse de vérification avec code QR et le nom de qui l’autorise. Cette page n’en est pas un.",
        es="Un certificado lleva número, dirección de verificación con código QR y el nombre de quien lo autoriza. Esta página no lo es.",
        pl="Świadectwo ma numer, adres sprawdzania z kodem QR i nazwisko osoby zatwierdzającej. Ta strona nim nie jest.",
    ),
    "meaning": Said(
        en="Meaning: {meaning}",
        de="Bedeutung: {meaning}",
        fr="Signification : {meaning}",
        es="Significado: {meaning}",
        pl="Znaczenie: {meaning}",
    ),
}
