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
    total = words.count(found.total)
    if not found.total:
        return words["nothing_to_meet"], ""
    if found.not_met:
        if found.total == 1:
            return words["one_not_met"], words["not met"]
        k = capital(words.count(len(found.not_met)))
        return words.say("some_not_met", k=k, n=total), words["not met"]
    if found.met < found.total:
        return words.say("some_met", k=capital(words.count(found.met)), n=total), ""
    plain = {1: "one_met", 2: "both_met"}.get(found.total, "all_met")
    return words.say(plain, n=total), ""


def _exceptions(data: CertificateData, words: Words) -> list[str]:
    """One sentence for each way in which lines are not met."""
    found = data.finding
    names = {
        row.line: within_sentence(row.characteristic, data.language)
        for row in data.rows
    }
    many = "this_not_met" if len(found.not_met) == 1 else "these_not_met"
    kinds = (
        (many, found.not_met),
        ("are_not_tested", found.not_tested),
        ("are_not_evaluated", found.not_evaluated),
    )
    return [
        words.say(key, names=words.joined(names[line] for line in lines))
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
    on_lot = "some_on_lot" if found.on_lot > 1 else "one_on_lot"
    parts = [words.say(on_lot, n=capital(words.count(found.on_lot)))]
    for key, lines in (("on_batch", found.on_batch), ("periodic", found.periodic)):
        if lines:
            one = "line" if len(lines) == 1 else "lines"
            parts.append(words.say(f"{one}_{key}", lines=words.joined(lines)))
    return "; ".join(parts) + "."
