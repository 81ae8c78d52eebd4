"""What failed, as a sentence that others can follow; sentences for tooltips."""

import html

__all__ = ["sentence", "tip"]


def sentence(error: object) -> str:
    """Give the words of an error with a full stop at their end."""
    words = str(error).rstrip()
    return words if words.endswith((".", "!", "?")) else f"{words}."


def tip(*sentences: str) -> str:
    """Put sentences under each other for a tooltip, which then breaks its long lines.

    Examples
    --------
    >>> tip("one & two", "", "three")
    '<p>one &amp; two</p><p>three</p>'
    """
    return "".join(f"<p>{html.escape(words, quote=False)}</p>" for words in sentences if words)
