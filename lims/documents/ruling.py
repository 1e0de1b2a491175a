"""A decision rule with a zone of its own, in words: what is accepted, and what lies between it and the limits."""

from decimal import Decimal

from lims.certificates.data import CertificateData, Row, Ruled
from lims.documents.words import Words

OWN = "own uncertainty"


def rule_sentences(data: CertificateData, words: Words) -> list[str]:
    """The rule of the paper, then the lines that have one of their own; one sentence where all lines share one."""
    judged = [row for row in data.rows if row.verdict]
    own: dict[str, list[int]] = {}
    for row in judged:
        if row.ruled is not None:
            own.setdefault(ruled_words(row, row.ruled, words), []).append(row.line)
    plain = len(judged) - sum(map(len, own.values()))
    if len(own) == 1 and not plain:
        return [words.say("rule_of_all", rule=next(iter(own)))]
    rule = words.rules.get(data.statement.rule, data.statement.rule)
    told = [words.say("decision_rule", rule=rule)] if plain or not own else []
    for sentence, lines in own.items():
        key = "rule_of_line" if len(lines) == 1 else "rule_of_lines"
        told.append(words.say(key, lines=words.joined(lines), rule=sentence))
    return told


def ruled_words(row: Row, ruled: Ruled, words: Words) -> str:
    """The rule of one line, as in ``guarded acceptance: a value is accepted from 268.55 to 291.45``."""
    name = words.rules.get(ruled.rule, ruled.rule)
    if not ruled.lower and not ruled.upper:
        return name
    return words.say(
        "ruled",
        name=name,
        zone=_zone(ruled, words),
        limits=words[_between(row, ruled)],
        uncertainty=words.say(
            "by_own" if ruled.basis == OWN else "by_method",
            factor=words.figure(ruled.factor),
            figure=words.figure(ruled.uncertainty),
            percent=_percent(ruled.confidence, words),
        ),
    )


def _zone(ruled: Ruled, words: Words) -> str:
    lower, upper = words.figure(ruled.lower), words.figure(ruled.upper)
    if not lower:
        return words.say("zone_to", upper=upper)
    if not upper:
        return words.say("zone_from", lower=lower)
    return words.say("zone_both", lower=lower, upper=upper)


def _between(row: Row, ruled: Ruled) -> str:
    """How the zone lies to the limits: two limits are narrowed or widened, one is moved down or up."""
    if ruled.lower and ruled.upper:
        is_inside = Decimal(ruled.upper) < Decimal(row.upper or "0")
        return "limits_less" if is_inside else "limits_more"
    bound, limit = (ruled.lower, row.lower) if ruled.lower else (ruled.upper, row.upper)
    return "limit_less" if Decimal(bound) < Decimal(limit or "0") else "limit_more"


def _percent(confidence: str, words: Words) -> str:
    """``95`` of 0.95; ``97.5`` of 0.975."""
    share = (Decimal(confidence) * 100).normalize()
    return words.figure(f"{share:f}")
