"""What the keys do on the rig bench, in sentences for the page of keys and for those who hear."""

__all__ = ["BENCH_KEYS"]

BENCH_KEYS = (
    "Left and right walk from part to part, with Alt they move a part along the beam. "
    "Enter goes to a part's figures, Delete takes it out. "
    "Ctrl with page up and page down changes the page, Escape goes back to the sky."
)
