"""The statement of conformity in sentences: what was held against what, by which rule, how sampled."""

from lims.certificates.data import CertificateData
from lims.documents.ruling import rule_sentences
from lims.documents.words import Words, held


def statement_of(data: CertificateData, words: Words) -> tuple[str, ...]:
    """The paragraphs under "Statement and rule"."""
    against = words.say(
        "held_against",
        lot=data.lot,
        specification=words.specification(data.specification),
        day=words.day(data.in_force_on),
    )
    ruled = [against, *rule_sentences(data, words), *_procedures(data, words)]
    if any(row.result[:1] in {"<", ">"} for row in data.rows if row.verdict):
        ruled.append(words["censored"])
    sampled = [_sampling(data, words), *data.statement.remarks]
    paragraphs = (" ".join(ruled), " ".join(filter(None, sampled)))
    return tuple(held(text) for text in (*paragraphs, words["items_tested"]) if text)


def _procedures(data: CertificateData, words: Words) -> list[str]:
    """How values are compared: the rule for all, then the lines that differ."""
    usual = data.statement.procedure
    sentences = [words.procedures[usual]] if usual in words.procedures else []
    for other, sentence in words.procedures.items():
        lines = [row.line for row in data.rows if row.procedure == other]
        if lines and other != usual:
            told = words.counted(
                "lines_compared",
                len(lines),
                lines=words.joined(lines),
                sentence=sentence,
            )
            sentences.append(told)
    if any(row.ruled for row in data.rows if row.verdict):
        sentences.append(words["zone_compared"])
    return sentences


def _sampling(data: CertificateData, words: Words) -> str:
    place = words.label(data.statement.product_from)
    plan = words.plan(data.statement.sampling_plan)
    if place and plan:
        return words.say("sampled_from_by", place=place, plan=plan)
    if place:
        return words.say("sampled_from", place=place)
    return words.say("sampled_by", plan=plan) if plan else ""
