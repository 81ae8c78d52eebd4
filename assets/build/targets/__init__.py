"""How the deep-sky table is merged; run by `assets/build/build_targets.py`."""
