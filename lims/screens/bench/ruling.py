"""What the rules of an edition did with a test, in words: which rule, what it set aside, and which of its figures nobody has checked yet."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from lims.bench.models import ReportedValue, Test
from lims.bench.repeating import ONE_DETERMINATION
from lims.bench.reporting import active_value
from lims.bench.results import LOOK_FOR_IT, listed, named
from lims.methods.figures import Figure, What
from lims.methods.queries import FROM_MEMORY, checked_figures
from lims.screens.bench import finding
from lims.wording.numbers import shown

Checked = Mapping[int, set[Figure]]  # by edition
SYMBOL = "r "  # no capital, even where a sentence begins
NAMES = {
    What.REPEATABILITY: "r",
    What.DETERMINATIONS: "number of determinations",
    What.COMBINING: "way of combining",
    What.CONFIRM: "rule after a rejected set",
}


def of_value(test: Test, value: ReportedValue, checked: Checked) -> tuple[str, ...]:
    """The rule behind a reported value, with what it set aside."""
    is_ruled = value.rule != ONE_DETERMINATION and not test.characteristic.is_derived
    rule = f"By the rule: {value.rule}." if is_ruled else ""
    return _said(rule, _looked_for(test), memory(value.figures, checked))


def of_asking(test: Test, checked: Checked) -> tuple[str, ...]:
    """What the figures that ask for more rest on; what they ask stands on the test itself."""
    return _said(_looked_for(test), memory(test.figures, checked))


def _said(*notes: str) -> tuple[str, ...]:
    return tuple(note for note in notes if note)


def _looked_for(test: Test) -> str:
    by_rule = [it for it in finding.sets(test) if it.by_rule]
    if not by_rule:
        return ""
    words = named(by_rule)
    is_are = "is" if len(by_rule) == 1 else "are"
    return f"{words[:1].upper()}{words[1:]} {is_are} set aside: {LOOK_FOR_IT}."


# ---- Figures from memory


def checked_for(tests: Iterable[Test]) -> Checked:
    """The figures that somebody compared, of every edition whose recalled figures decided something on these tests; one query, or none."""
    editions = {
        it["edition_id"]
        for test in tests
        for it in _figures_of(test)
        if it["standing"] == FROM_MEMORY
    }
    return checked_figures(editions)


def _figures_of(test: Test) -> list[dict[str, Any]]:
    value = active_value(test)
    return [*test.figures, *(value.figures if value is not None else [])]


def memory(figures: Sequence[Mapping[str, Any]], checked: Checked) -> str:
    """``r 7 is from memory and not checked.`` until somebody compared it with the laboratory's own copy."""
    recalled = [
        _words(Figure.within(it))
        for it in figures
        if it["standing"] == FROM_MEMORY
        and Figure.within(it) not in checked.get(it["edition_id"], ())
    ]
    if not recalled:
        return ""
    each = list(dict.fromkeys(recalled))
    words, is_are = listed(each), "is" if len(each) == 1 else "are"
    if not words.startswith(SYMBOL):
        words = f"{words[:1].upper()}{words[1:]}"
    return f"{words} {is_are} from memory and not checked."


def _words(figure: Figure) -> str:
    return f"{NAMES.get(What(figure.what), figure.what)} {shown(figure.value)}"
