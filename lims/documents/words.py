"""What the paper says, by language: the catalogue's sentences, labels, number words, days and moments."""

import re
from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime
from typing import Self
from zoneinfo import ZoneInfo

from lims.wording import dates, numbers
from lims.wording.catalogue import rules, whole
from lims.wording.catalogue.labels import LABELS
from lims.wording.catalogue.numbers import NUMBERS
from lims.wording.catalogue.said import Said
from lims.wording.languages import Language

NO_BREAK = "\u00a0"
UNITS = (
    r"(?:h|d|j|min|mm|mm²/s|Pa|kPa|MPa|hPa|bar|mbar|psi|kg|kgf|lbf|mg|mg/kg|g|g/cm³|N|N·m|mN·m"
    r"|P|Pa·s|mPa·s|min⁻¹|%|°C|mass[ \u00a0]%|volume[ \u00a0]%|Massen-%|Volumen-%|Shore[ \u00a0]A|×(?=[ \u00a0]\d))"
)
TWO_WORDS = re.compile(r"(\bmass|\bvolume|\bShore|%) (?=%|A\b|\((?:m/m|V/V)\))")
NUMBER_AND_UNIT = re.compile(rf"(?<=\d) (?={UNITS}(?![\w/]))")
AGREED = re.compile(r"(.+) for (.+)", re.DOTALL)
EDITION = re.compile(r"(.+), edition (.+)", re.DOTALL)
SPECIFICATION = re.compile(r"specification (.+), revision (\S+)", re.DOTALL)
FINDINGS = frozenset({"met", "not met", "pass", "fail"})
BETWEEN_FUNCTIONS = re.compile(r", | and ")
SOUNDS_AS_I = re.compile(r"[ií]|h[ií](?![aeo])", re.IGNORECASE)
SCALE = re.compile(r"(?P<first>\w+) to (?P<last>\w+)")
DECIMAL = re.compile(r"(?<![\w.])\d+\.\d+(?![\w.])")
FACTOR = re.compile(r"\d+(?:[.,]\d+)? \D+")


class Words:
    """The words of one language; `words["title"]` is a phrase, `words.say(...)` fills one in."""

    def __init__(self, language: Language) -> None:
        self.language: Language = language
        self.phrases = _shelf(whole.PAPER, language)
        self.rules = _shelf(rules.RULES, language)
        self.procedures = _shelf(rules.PROCEDURES, language)
        self.units = _shelf(rules.UNITS, language)
        self._labels = _shelf(LABELS, language)
        self._numbers = NUMBERS[language]

    @classmethod
    def of(cls, language: Language) -> Self:
        return cls(language)

    def __getitem__(self, key: str) -> str:
        return self.phrases[key]

    def say(self, key: str, **parts: str) -> str:
        return self.phrases[key].format(**parts)

    def counted(self, key: str, number: int, **parts: str) -> str:
        """A sentence in the form that the count takes."""
        form = whole.PAPER_COUNTED[key].into(number, self.language)
        return form.format(**parts)

    def label(self, english: str) -> str:
        """A label, a place, a meaning in this language; one that is not known stays."""
        return self._labels.get(english, english)

    def functions(self, english: str) -> str:
        """``quality manager``, or several functions of one person."""
        return self.joined(self.label(it) for it in BETWEEN_FUNCTIONS.split(english))

    def specification(self, english: str) -> str:
        """``specification LX2, revision 5`` in this language; a customer's own title stays."""
        found = SPECIFICATION.fullmatch(english)
        if found is None:
            return english
        return self.say("specification", name=self._named(found[1]), revision=found[2])

    def _named(self, specification: str) -> str:
        """``BM for LX2``, which was agreed with a customer, in this language."""
        found = AGREED.fullmatch(specification)
        if found is None:
            return specification
        return self.say("agreed", customer=found[1], product=found[2])

    def method(self, english: str) -> str:
        """``QG-A1, edition 1`` in this language; ``ASTM D217-21a`` is the same in both."""
        found = EDITION.fullmatch(english)
        if found is None:
            return english
        return self.say("of_edition", method=found[1], edition=found[2])

    def plan(self, english: str) -> str:
        """``plan SP-02`` in this language."""
        code = english.removeprefix("plan ")
        return english if code == english else self.say("plan", code=code)

    def count(self, number: int) -> str:
        """A number word up to twenty, figures above."""
        words = self._numbers
        return words[number] if number < len(words) else str(number)

    def joined(self, parts: Iterable[str | int]) -> str:
        """``7``, ``7 and 8``, ``6, 7 and 8``."""
        *first, last = map(str, parts)
        if not first:
            return last
        return f"{', '.join(first)} {self._and(last)} {last}"

    def _and(self, following: str) -> str:
        """Spanish y becomes e before the sound of i."""
        if self.language == "es" and SOUNDS_AS_I.match(following):
            return "e"
        return self["and"]

    def figure(self, text: str) -> str:
        """A number with this language's decimal mark, never grouped; a sign that was reported stays. A finding in words is said in this language."""
        if text in FINDINGS:
            return self[text]
        return numbers.shown(text, self.language, signed=text.startswith("+"))

    def unit(self, text: str) -> str:
        """A unit; one that begins with a figure is written as a factor, one in words is said in this language."""
        text = self.units.get(text, text)
        if FACTOR.fullmatch(text):
            return numbers.unit_shown(text, self.language)
        scale = SCALE.fullmatch(text)
        return self.say("scale", **scale.groupdict()) if scale else text

    def value(self, text: str) -> str:
        """A typical value as it was written, with this language's decimal mark."""
        return DECIMAL.sub(lambda it: self.figure(it[0]), text)

    def day(self, iso: str) -> str:
        return dates.day(date.fromisoformat(iso), UTC, self.language)

    def days(self, first: str, last: str = "") -> str:
        """``5 March 2026``, ``5 to 6 March 2026``, ``25 February to 2 March 2026``."""
        if not last or last == first:
            return self.day(first)
        begun, ended = dates.days(
            date.fromisoformat(first), date.fromisoformat(last), self.language
        )
        return self.say("days", first=begun, last=ended)

    def moment(self, iso: str, zone_name: str = "") -> str:
        """``6 March 2026, 15:48 UTC+1``, in the named zone or at its own offset."""
        at = datetime.fromisoformat(iso)
        zone = ZoneInfo(zone_name) if zone_name else at.tzinfo or UTC
        on = dates.day(at, zone, self.language)
        return f"{on}, {dates.clock(at, zone)} {dates.offset(at, zone)}"

    def issued_on(self, iso: str) -> str:
        at = datetime.fromisoformat(iso)
        return dates.day(at.date(), UTC, self.language)


def _shelf(shelf: Mapping[str, Said], language: Language) -> dict[str, str]:
    return {key: said.into(language) for key, said in shelf.items()}


def held(text: str) -> str:
    """The text with each number held to its unit, so that no line breaks between them."""
    return TWO_WORDS.sub(rf"\1{NO_BREAK}", NUMBER_AND_UNIT.sub(NO_BREAK, text))


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def within_sentence(name: str, language: Language) -> str:
    """A characteristic's name inside a sentence: small except in German, and except abbreviations."""
    if language != "de" and name[1:2].islower():
        return name[0].lower() + name[1:]
    return name
