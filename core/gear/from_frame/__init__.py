"""Reads what a test frame says of the rig that took it; pixels are never looked at."""

__all__: list[str] = []
