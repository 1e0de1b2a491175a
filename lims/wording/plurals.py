"""Which form of a word a count takes. The categories are those of CLDR (Unicode TR 35), for whole numbers."""

from typing import Literal

from lims.wording.languages import Language

Category = Literal["one", "few", "many", "other"]
TENS_OF_FEW = range(2, 5)
NEVER_FEW = range(12, 15)


def category(number: int, language: Language) -> Category:
    """The category of a whole number from 0 on: Polish has one, few and many; French takes 0 as one.

    The form of whole millions (French and Spanish *many*) is no form of its own here: no paper counts so far.
    """
    if language == "pl":
        return _polish(number)
    if number == 1 or (language == "fr" and number == 0):
        return "one"
    return "other"


def _polish(number: int) -> Category:
    """1; 2 to 4, 22 to 24 and so on, but not 12 to 14; all others."""
    if number == 1:
        return "one"
    is_few = number % 10 in TENS_OF_FEW and number % 100 not in NEVER_FEW
    return "few" if is_few else "many"
