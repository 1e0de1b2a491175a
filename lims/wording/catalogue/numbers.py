"""Counts in words up to twenty, as they stand in a sentence on requirements: feminine in German and French, masculine in Spanish. Polish has figures, whose case is not seen."""

from lims.wording.languages import Language

NUMBERS: dict[Language, tuple[str, ...]] = {
    "en": (
        *("none", "one", "two", "three", "four", "five", "six", "seven", "eight"),
        *("nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen"),
        *("sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
    ),
    "de": (
        *("keine", "eine", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht"),
        *("neun", "zehn", "elf", "zwölf", "dreizehn", "vierzehn", "fünfzehn"),
        *("sechzehn", "siebzehn", "achtzehn", "neunzehn", "zwanzig"),
    ),
    "fr": (
        *("aucune", "une", "deux", "trois", "quatre", "cinq", "six", "sept", "huit"),
        *("neuf", "dix", "onze", "douze", "treize", "quatorze", "quinze", "seize"),
        *("dix-sept", "dix-huit", "dix-neuf", "vingt"),
    ),
    "es": (
        *("ninguno", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete"),
        *("ocho", "nueve", "diez", "once", "doce", "trece", "catorce", "quince"),
        *("dieciséis", "diecisiete", "dieciocho", "diecinueve", "veinte"),
    ),
    "pl": tuple(map(str, range(21))),
}
