"""The two families of failure, each message one sentence a person can act on.

`CoreError` is bad input: what was given is wrong and can be corrected.
`WorldError` is the world outside: a network, a disk or a file that failed us.
Anything else that is raised is a mistake of the program.
"""

__all__ = [
    "BadValueError",
    "Cancelled",
    "CatalogueError",
    "CoreError",
    "InvalidRigError",
    "OutOfDomainError",
    "PictureError",
    "PlanFileError",
    "StorageError",
    "UnknownTargetError",
    "WorldError",
]


class CoreError(ValueError):
    """Bad input; the text is one clear sentence."""


class BadValueError(CoreError):
    """A field that breaks a rule.

    Parameters
    ----------
    field : str
        What was given, in the words of the trade ("right ascension").
    value : object
        The value as it was given.
    rule : str
        What is allowed ("must lie between -90 and +90 degrees").
    """

    def __init__(self, field: str, value: object, rule: str) -> None:
        self.field = field
        self.value = value
        self.rule = rule
        super().__init__(f"{field} {_shown(value)}: {rule}")


class InvalidRigError(BadValueError):
    """A part or a rig with a figure that cannot be."""


class OutOfDomainError(CoreError):
    """A point or field where the asked projection has no answer."""


class PlanFileError(CoreError):
    """A plan file that cannot be read as a plan."""


class UnknownTargetError(CoreError):
    """A name that no catalogue knows.

    Parameters
    ----------
    text : str
        The name as it was typed.
    near_misses : tuple of str
        Names that come close, best first; may be empty.
    """

    def __init__(self, text: str, near_misses: tuple[str, ...] = ()) -> None:
        self.text = text
        self.near_misses = near_misses
        hint = f"; did you mean {' or '.join(near_misses)}?" if near_misses else ""
        super().__init__(f"no object is called {_shown(text)}{hint}")


class WorldError(Exception):
    """The world outside failed; the text is one clear sentence."""


class CatalogueError(WorldError):
    """An embedded catalogue is missing or damaged."""


class PictureError(WorldError):
    """A picture could not be brought."""


class StorageError(WorldError):
    """The disk refused to read or write."""


class Cancelled(Exception):  # noqa: N818  (not a failure: somebody changed their mind)
    """The work was given up because nobody waits for it any more."""


def _shown(value: object) -> str:
    """Quote a value so that a long or empty one stays readable."""
    text = str(value)
    return f'"{text if len(text) <= 60 else text[:57] + "..."}"'
