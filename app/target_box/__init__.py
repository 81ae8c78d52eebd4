"""The box at the top where a target is typed, with what it might mean."""
