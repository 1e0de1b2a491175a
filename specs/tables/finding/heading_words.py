"""The words by which plants head their columns, English and German (common practice, no source), and what each speaks for."""

import re
import unicodedata
from functools import lru_cache

from specs.tables.known import Role

_ROLES = {
    Role.BATCH: "batch, batch no, batch number, batch nr, batch id, batch code, lot, lot no, lot number, "
    "charge, chargen, chargen nr, chargennummer, charge nr, charge no, ch nr, partie, los, losnummer",
    Role.DAY: "date, day, test date, date tested, tested on, tested, date of test, sample date, sampled on, "
    "date sampled, datum, tag, prüfdatum, probedatum, probendatum, probenahme, probenahmedatum, "
    "herstelldatum, produktionsdatum, production date, date made, made on, geprüft am",
    Role.PRODUCT: "product, product code, grease, grade, article, item, material, material code, "
    "produkt, produktcode, artikel, artikel nr, artikelnummer, fett, sorte, fettsorte, type, typ",
    Role.KETTLE: "kettle, kettle no, vessel, reactor, kessel, kessel nr, reaktor, rührwerk",
    Role.PACK: "fill lot, fill lot no, pack, package, packing, drum, drum no, gebinde, gebinde nr, fass, fass nr, "
    "abfüllung, abfüllcharge",
    Role.PLACE: "where, where sampled, place, sample point, sampling point, sampled at, location, stage, "
    "stelle, probestelle, probenstelle, entnahmestelle, entnahmeort, ort, stufe",
    Role.INSTRUMENT: "instrument, instrument no, equipment, apparatus, device, penetrometer, penetrometer no, "
    "gerät, geräte nr, gerätenummer, prüfgerät, messgerät",
    Role.PERSON: "analyst, tested by, by, operator, technician, tester, initials, person, chemist, "
    "laborant, laborantin, prüfer, geprüft von, bearbeiter, kürzel, bediener, techniker",
    Role.TESTED: "test, test name, characteristic, property, parameter, determination, analysis, measurand, "
    "prüfung, prüfmerkmal, merkmal, kennwert, eigenschaft, messgröße, prüfgröße",
    Role.FOUND: "result, results, value, measured value, test result, reading, ergebnis, prüfergebnis, wert, messwert, resultat, istwert",
    Role.UNIT: "unit, units, uom, unit of measure, einheit, einheiten, dimension",
    Role.REMARK: "remark, remarks, comment, comments, note, notes, observation, observations, "
    "bemerkung, bemerkungen, kommentar, anmerkung, anmerkungen, notiz, notizen, hinweis, bem",
}  # fmt: skip
ROLES = {
    word.strip(): role for role, words in _ROLES.items() for word in words.split(",")
}
KEYS = (Role.BATCH, Role.DAY)
_KEY_STARTS = frozenset(word[:2] for word, role in ROLES.items() if role in KEYS)
_BEFORE = " \t\n*#([\"'-–.:"

_PEN = (
    r"pen|penetr\w*|kpen|wpen|konuspen\w*|walkpen\w*|ruhpen\w*|p0|p60|w60|wp|uwp|pw|pu"
)
_CHANGE = r"change|diff\w*|delta|δ|∆|änderung\w*|zunahme|shift"
# Words that must stand in a head, words that must not, and the characteristics meant, the
# likeliest first: the first of them that the laboratory has is proposed.
_Rule = tuple[str, str, tuple[str, ...]]
_PENETRATION: tuple[_Rule, ...] = (
    (rf"(?=.*\b({_CHANGE})\b)(?=.*\b100000\b)", "", ("penetration-change-100000",)),
    (rf"(?=.*\b({_CHANGE})\b)(?=.*\b10000\b)", "", ("penetration-change-10000",)),
    (r"\b(roll|rollstab\w*|roller)\b", "", ("roll-stability",)),
    (rf"(?=.*\b({_PEN})\b)(?=.*\b100000\b)", _CHANGE, ("prolonged-penetration-100000",)),
    (rf"(?=.*\b({_PEN})\b)(?=.*\b10000\b)", _CHANGE, ("prolonged-penetration-10000",)),
    (r"\bblock\w*", "", ("block-penetration",)),
    (r"(?=.*\b(unworked|ruhpen\w*|uwp|p0|pu|ungewalkt\w*|undisturbed|0)\b)(?=.*\b(" + _PEN + r"|unworked)\b)(?=.*\b(half|halb\w*|1/2)\b)", _CHANGE, ("unworked-penetration-half",)),
    (r"(?=.*\b(unworked|ruhpen\w*|uwp|p0|pu|ungewalkt\w*|undisturbed|0)\b)(?=.*\b(" + _PEN + r"|unworked)\b)(?=.*\b(quarter|viertel\w*|1/4)\b)", _CHANGE, ("unworked-penetration-quarter",)),
    (r"\b(unworked|ruhpen\w*|uwp|p0|pu|ungewalkt\w*|undisturbed)\b|\bpen\w* 0\b", _CHANGE, ("unworked-penetration",)),
    (rf"(?=.*\b({_PEN})\b)(?=.*\b(half|halb\w*|1/2)\b)", _CHANGE, ("worked-penetration-half",)),
    (rf"(?=.*\b({_PEN})\b)(?=.*\b(quarter|viertel\w*|1/4)\b)", _CHANGE, ("worked-penetration-quarter",)),
    (rf"\b({_PEN})\b", rf"{_CHANGE}|\b(rest\w*|ruhe|h|d)\b", ("worked-penetration",)),
)  # fmt: skip
_HEAT: tuple[_Rule, ...] = (
    (r"\b(drop\w*|tropf\w*|dp|dpt)\b(?=.*\b(bath|bad|566|2176|ölbad)\b)", r"\bpress\w*", ("dropping-point-bath",)),
    (r"\b(dropping|tropfpunkt|tropfp|tp|dp|dpt|drop p\w*)\b", r"\bpress\w*", ("dropping-point-block", "dropping-point-bath")),
    (r"(?=.*\b(induction|oit|pdsc|dsc|induktion\w*|oxidationsinduktion\w*)\b)(?=.*\b155\b)", "", ("oxidation-induction-155",)),
    (r"(?=.*\b(induction|oit|pdsc|dsc|induktion\w*|oxidationsinduktion\w*)\b)(?=.*\b180\b)", "", ("oxidation-induction-180",)),
    (r"(?=.*\b(induction|oit|pdsc|dsc|induktion\w*|oxidationsinduktion\w*)\b)(?=.*\b210\b)", "", ("oxidation-induction-210",)),
    (r"\b(ox|oxid\w*|oxi|oxydation|bomb|druckabfall|pressure drop)\b", r"\b(induction|oit|pdsc|dsc)\b|induktion", ("oxidation-drop",)),
    (r"\b(cu|copper\w*|kupfer\w*)\b", "", ("copper-strip",)),
    (r"(?=.*\b(evap\w*|verdampf\w*|noack)\b)(?=.*\b100\b)", "", ("evaporation-100",)),
    (r"(?=.*\b(evap\w*|verdampf\w*|noack)\b)(?=.*\b150\b)", "", ("evaporation-150",)),
    (r"(?=.*\b(evap\w*|verdampf\w*|noack)\b)(?=.*\b177\b)", "", ("evaporation-177",)),
    (r"(?=.*\b(evap\w*|verdampf\w*|noack)\b)(?=.*\b120\b)", "", ("evaporation-120-1h",)),
)  # fmt: skip
_OIL = r"oil sep\w*|oil bleed\w*|bleed\w*|ölab\w*|oelab\w*|ölaus\w*|separation"
_OIL_AND_WATER: tuple[_Rule, ...] = (
    (rf"(?=.*\b({_OIL})\b)(?=.*\b(storage|lager\w*|1742|25)\b)", "", ("oil-separation-storage",)),
    (rf"(?=.*\b({_OIL})\b)(?=.*\b(42)\b)", "", ("oil-separation-static-42h",)),
    (rf"(?=.*\b({_OIL})\b)(?=.*\b(18|static|statisch)\b)", "", ("oil-separation-static-18h",)),
    (rf"\b({_OIL})\b", "", ("oil-separation",)),
    (r"\b(colloid\w*|kolloid\w*)\b", "", ("colloid-stability",)),
    (r"(?=.*\b(wash ?out|wwo|auswasch\w*|wasserauswasch\w*)\b)(?=.*\b(38)\b)", "", ("water-washout-38",)),
    (r"(?=.*\b(wash ?out|wwo|auswasch\w*|wasserauswasch\w*)\b)(?=.*\b(79|80)\b)", "", ("water-washout-79",)),
    (r"\b(spray\w*|sprüh\w*|abwasch\w*)\b", "", ("water-spray-off",)),
    (r"(?=.*\b(wasserbest\w*|water resist\w*|beständigkeit\w*)\b)(?=.*\b90\b)", "", ("water-resistance-90",)),
    (r"(?=.*\b(wasserbest\w*|water resist\w*|beständigkeit\w*)\b)(?=.*\b40\b)", "", ("water-resistance-40",)),
    (r"\b(emcor)\b(?=.*\b(sea|meer\w*)\b)", "", ("emcor-sea-water",)),
    (r"\b(emcor)\b(?=.*\b(salt\w*|salz\w*|nacl)\b)", "", ("emcor-salt-water",)),
    (r"\b(emcor)\b", "", ("emcor-distilled-water",)),
    (r"\b(rust|rost\w*|korrosionsschutz)\b(?=.*\b(sea|meer\w*)\b)", "", ("rust-prevention-sea-water",)),
    (r"\b(rust|rost\w*|korrosionsschutz)\b", "", ("rust-prevention",)),
    (r"^(water|water content|wasser|wassergehalt|h2o|karl fischer|kf|kf water)$", "", ("water-content",)),
)  # fmt: skip
_WEAR_AND_FLOW: tuple[_Rule, ...] = (
    (r"\b(weld\w*|schweiss\w*)\b", "", ("four-ball-weld",)),
    (r"\b(lwi|load wear|last verschleiss\w*)\b", "", ("load-wear-index",)),
    (r"\b(timken)\b", "", ("timken-ok-load",)),
    (r"\b(fretting|reibkorrosion|riffel\w*)\b", "", ("fretting-wear",)),
    (r"\b(wear|scar|kalotte\w*|verschleiss\w*)\b", "", ("four-ball-wear",)),
    (r"(?=.*\b(flow press\w*|fliessdruck)\b)(?=.*\b20\b)", "", ("flow-pressure-20",)),
    (r"(?=.*\b(flow press\w*|fliessdruck)\b)(?=.*\b30\b)", "", ("flow-pressure-30",)),
    (r"(?=.*\b(flow press\w*|fliessdruck)\b)(?=.*\b40\b)", "", ("flow-pressure-40",)),
    (r"\b(vi|viscosity index|viskositätsindex)\b", "", ("viscosity-index",)),
    (r"\b(apparent visc\w*|scheinbare visk\w*)\b", "", ("apparent-viscosity",)),
    (r"\b(kv|kv40|v40|visc\w*|visk\w*|kin\w*)\b(?=.*\b40\b)|\b(kv40|v40)\b", "", ("kinematic-viscosity-40",)),
    (r"\b(kv|kv100|v100|visc\w*|visk\w*|kin\w*)\b(?=.*\b100\b)|\b(kv100|v100)\b", "", ("kinematic-viscosity-100",)),
    (r"(?=.*\b(torque|drehmoment|tieftemp\w*)\b)(?=.*\b(start\w*|anlauf\w*)\b)", "", ("low-temperature-torque-start",)),
    (r"(?=.*\b(torque|drehmoment|tieftemp\w*)\b)(?=.*\b(run\w*|lauf\w*)\b)", "", ("low-temperature-torque-running",)),
    (r"\b(lioh|alkali as lioh)\b", "", ("free-alkali-lithium",)),
    (r"\b(naoh)\b", "", ("free-alkali-sodium",)),
    (r"\b(free acid\w*|freie säure\w*|oleic)\b", "", ("free-acid",)),
    (r"^(appearance|look|visual|aussehen|beschaffenheit)$", "", ("appearance",)),
)  # fmt: skip
RULES = tuple(
    (re.compile(wanted), re.compile(unwanted) if unwanted else None, codes)
    for wanted, unwanted, codes in (*_PENETRATION, *_HEAT, *_OIL_AND_WATER, *_WEAR_AND_FLOW)
)  # fmt: skip

_NO_WORD = re.compile(r"[^\w/%δ∆]+|_+")
_THOUSANDS = re.compile(
    r"(?<![0-9])([0-9]{1,3})[ .,'’\u00a0\u2009\u202f]([0-9]{3})(?![0-9])"
)
_TENTH = re.compile(r"\b0[.,] ?1 ?mm\b")  # a unit, and not the figure nought
_K = re.compile(r"\b([0-9]{1,3}) ?k\b")
_GLUED = re.compile(r"(?<=[0-9])(?=(?:h|x|str|strokes|dh|°|std|d|c)\b)")
_TAIL = re.compile(r" (?:no|nr|number|nummer|id|code)$")
LONGEST = 80


@lru_cache(maxsize=4096)
def plain(heading: str) -> str:
    """The words of a head in small letters, signs aside; 100k, 100 000 and 100.000 are 100000."""
    text = unicodedata.normalize("NFKC", heading[: LONGEST * 4]).casefold()
    text = _TENTH.sub(" ", text)
    text = _K.sub(r"\g<1>000", _THOUSANDS.sub(r"\1\2", text))
    return _GLUED.sub(" ", _NO_WORD.sub(" ", text)).strip()


@lru_cache(maxsize=4096)
def role_of(heading: str) -> Role | None:
    """The role that a head speaks for, if it is not a characteristic's."""
    words = plain(heading)
    return ROLES.get(words) or ROLES.get(_TAIL.sub("", words))


@lru_cache(maxsize=4096)
def codes_of(heading: str) -> tuple[str, ...]:
    """The characteristics that a head may name, the likeliest first."""
    words = plain(heading)
    if not words or len(words) > LONGEST:
        return ()
    for wanted, unwanted, codes in RULES:
        if wanted.search(words) and not (unwanted and unwanted.search(words)):
            return codes
    return ()


def is_known(heading: str) -> bool:
    """Whether any word here speaks for a head."""
    return role_of(heading) is not None or bool(codes_of(heading))


def is_key(heading: str) -> bool:
    """Whether a head is that of batches or days."""
    start = heading.lstrip(_BEFORE)[:2].casefold()
    return start in _KEY_STARTS and role_of(heading) in KEYS
