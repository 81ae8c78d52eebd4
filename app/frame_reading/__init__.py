"""The page of the bench that reads a rig from a test frame."""

__all__: list[str] = []
