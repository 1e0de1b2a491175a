"""Days, months and lengths of time. Month names as CLDR's format forms, which stand in a date: Polish in the genitive; from memory."""

from lims.wording.catalogue.said import Counted, Said
from lims.wording.languages import Language

MONTHS: dict[Language, tuple[str, ...]] = {
    "en": (
        *("January", "February", "March", "April", "May", "June"),
        *("July", "August", "September", "October", "November", "December"),
    ),
    "de": (
        *("Januar", "Februar", "März", "April", "Mai", "Juni"),
        *("Juli", "August", "September", "Oktober", "November", "Dezember"),
    ),
    "fr": (
        *("janvier", "février", "mars", "avril", "mai", "juin"),
        *("juillet", "août", "septembre", "octobre", "novembre", "décembre"),
    ),
    "es": (
        *("enero", "febrero", "marzo", "abril", "mayo", "junio"),
        *("julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"),
    ),
    "pl": (
        *("stycznia", "lutego", "marca", "kwietnia", "maja", "czerwca"),
        *("lipca", "sierpnia", "września", "października", "listopada", "grudnia"),
    ),
}
WEEKDAYS: dict[Language, tuple[str, ...]] = {
    "en": ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    "de": ("Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"),
    "fr": ("lun.", "mar.", "mer.", "jeu.", "ven.", "sam.", "dim."),
    "es": ("lun,", "mar,", "mié,", "jue,", "vie,", "sáb,", "dom,"),
    "pl": ("pon.,", "wt.,", "śr.,", "czw.,", "pt.,", "sob.,", "niedz.,"),
}
SENTENCES: dict[str, Said] = {
    "day": Said(
        en="{day} {month}",
        de="{day}. {month}",
        fr="{day} {month}",
        es="{day} de {month}",
        pl="{day} {month}",
    ),
    "day_alone": Said(
        en="{day}",
        de="{day}.",
        fr="{day}",
        es="{day}",
        pl="{day}",
    ),
    "day_of_year": Said(
        en="{day} {year}",
        de="{day} {year}",
        fr="{day} {year}",
        es="{day} de {year}",
        pl="{day} {year}",
    ),
    "first_day": Said(en="1", de="1", fr="1er", es="1", pl="1"),
    "today": Said(en="today", de="heute", fr="aujourd’hui", es="hoy", pl="dzisiaj"),
    "now": Said(en="now", de="jetzt", fr="maintenant", es="ahora", pl="teraz"),
    "instant": Said(
        en="less than 1 min",
        de="weniger als 1 min",
        fr="moins de 1 min",
        es="menos de 1 min",
        pl="mniej niż 1 min",
    ),
    "ahead": Said(
        en="in {words}",
        de="in {words}",
        fr="dans {words}",
        es="en {words}",
        pl="za {words}",
    ),
    "late": Said(
        en="{words} late",
        de="{words} zu spät",
        fr="{words} de retard",
        es="{words} de retraso",
        pl="{words} po terminie",
    ),
    "CET": Said(en="CET", de="MEZ", fr="CET", es="CET", pl="CET"),
    "CEST": Said(en="CEST", de="MESZ", fr="CEST", es="CEST", pl="CEST"),
}
COUNTED: dict[str, Counted] = {
    "days": Counted(
        en=("{n} day", "{n} days"),
        de=("{n} Tag", "{n} Tage"),
        fr=("{n} jour", "{n} jours"),
        es=("{n} día", "{n} días"),
        pl=("{n} dzień", "{n} dni", "{n} dni"),
    ),
    "days_ahead": Counted(
        en=("{n} day", "{n} days"),
        de=("{n} Tag", "{n} Tagen"),
        fr=("{n} jour", "{n} jours"),
        es=("{n} día", "{n} días"),
        pl=("{n} dzień", "{n} dni", "{n} dni"),
    ),
}
