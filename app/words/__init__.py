"""Rigs, fits and targets in words, and what can be done with a rig, said once for all rooms."""
