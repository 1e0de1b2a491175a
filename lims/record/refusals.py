"""Refusals: what the laboratory tells a person who may not, cannot or should not do a thing now."""


class Refusal(Exception):  # noqa: N818 - the house word for it; each subclass says which kind
    """A sentence for the person who asked. It says what to do next."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class NotAllowed(Refusal):
    """This person's roles do not include the act."""


class WrongMove(Refusal):
    """Nobody may do this to this thing in its present state."""


class ChangedSince(Refusal):
    """Somebody changed the thing after this person had opened it."""


class BadInput(Refusal):
    """One field holds something that cannot be taken; the sentence stands beside it."""

    def __init__(self, sentence: str, *, field: str) -> None:
        super().__init__(sentence)
        self.field = field


class GateError(RuntimeError):
    """The write gate was used wrongly: a fault of the program, never of the person."""
