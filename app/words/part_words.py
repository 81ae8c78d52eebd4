"""Parts and what is found about them, in the words of forms and drawings."""

__all__ = ["level_of"]

_LEVELS = {"stop": "bad", "caution": "caution", "good": "good"}


def level_of(severity: str) -> str:
    """Give the level of a severity, which decides colour and mark; "" for what is not known.

    Examples
    --------
    >>> level_of("stop"), level_of("unknown"), level_of("note")
    ('bad', '', 'good')
    """
    return "good" if severity == "note" else _LEVELS.get(severity, "")
