"""The finding in sentences: what the reader at the goods-in door sees first."""

from dataclasses import dataclass

from lims.certificates.data import CertificateData, Finding
from lims.documents.words import Words, capital, within_sentence


@dataclass(frozen=True, slots=True)
class FindingWords:
    """`title` may end in `exception`, which is printed white on black; `rest` follows in small."""

    title: str
    exception: str
    rest: str

    def __str__(self) -> str:
        opening = f"{self.title} {self.exception}." if self.exception else self.title
        return f"{opening} {self.rest}".strip()


def finding_words(data: CertificateData) -> FindingWords:
    """The finding of a certificate or preview, in its language."""
    words = Words.of(data.language)
    found = data.finding
    title, exception = _title(found, words)
    rest = [*_exceptions(data, words), _tested(found, words)]
    if data.is_preview:
        title = f"{words['so_far']} {title[:1].lower()}{title[1:]}"
        warning = "not_for_delivery" if data.signatures else "not_for_release"
        rest = [*_exceptions(data, words), words[warning]]
    return FindingWords(title, exception, " ".join(part for part in rest if part))


def _title(found: Finding, words: Words) -> tuple[str, str]:
    if not found.total:
        return words["nothing_to_meet"], ""
    if found.not_met:
        return _not_met(found, words)
    if found.met < found.total:
        return _some_met(found, words), ""
    plain = {1: "one_met", 2: "both_met"}.get(found.total)
    if plain:
        return words[plain], ""
    return words.counted("all_met", found.total, n=words.count(found.total)), ""


def _not_met(found: Finding, words: Words) -> tuple[str, str]:
    count = len(found.not_met)
    marked = words.counted("marked_not_met", count)
    if found.total == 1:
        return words["one_not_met"], marked
    total = words.count(found.total)
    opening = words.counted("some_not_met", count, k=words.count(count), n=total)
    return capital(opening), marked


def _some_met(found: Finding, words: Words) -> str:
    if found.total == 1:
        return words["one_open"]
    total = words.count(found.total)
    if not found.met:
        return words.say("none_met", n=total)
    said = words.counted("some_met", found.met, k=words.count(found.met), n=total)
    return capital(said)


def _exceptions(data: CertificateData, words: Words) -> list[str]:
    """One sentence for each way in which lines are not met."""
    found = data.finding
    names = {
        row.line: within_sentence(row.characteristic, data.language)
        for row in data.rows
    }
    kinds = (
        ("not_met_named", found.not_met),
        ("not_tested_named", found.not_tested),
        ("not_evaluated_named", found.not_evaluated),
    )
    return [
        words.counted(
            key, len(lines), names=words.joined(names[line] for line in lines)
        )
        for key, lines in kinds
        if lines
    ]


def _tested(found: Finding, words: Words) -> str:
    """Where the results come from: this lot, this batch, a periodic test."""
    tested = found.on_lot + len(found.on_batch) + len(found.periodic)
    if not tested:
        return ""
    if found.on_lot == tested == found.total:
        return words["it_on_lot" if tested == 1 else "all_on_lot"]
    parts = [_on_lot(found.on_lot, words)]
    for key, lines in (("on_batch", found.on_batch), ("periodic", found.periodic)):
        if lines:
            told = words.joined(lines)
            parts.append(words.counted(f"lines_{key}", len(lines), lines=told))
    return words["then"].join(parts) + "."


def _on_lot(count: int, words: Words) -> str:
    if not count:
        return words["none_on_lot"]
    return capital(words.counted("on_lot", count, n=words.count(count)))
