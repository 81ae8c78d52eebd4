"""What failed, as a sentence that others can follow."""

__all__ = ["sentence"]


def sentence(error: object) -> str:
    """Give the words of an error with a full stop at their end."""
    words = str(error).rstrip()
    return words if words.endswith((".", "!", "?")) else f"{words}."
