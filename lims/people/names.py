"""Account names and passwords as they are compared: NFKC, so that two ways to type one text are one."""

import re
import unicodedata

ACCOUNT = re.compile(r"[^\W_][\w.-]{1,39}")


def account_form(typed: str) -> str:
    """An account name as it is stored and looked up."""
    return unicodedata.normalize("NFKC", typed.strip()).casefold()


def password_form(typed: str) -> str:
    """A password as it is hashed and checked."""
    return unicodedata.normalize("NFKC", typed)
