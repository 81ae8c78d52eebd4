"""The panel on the right: target, frames and the chosen rig in numbers."""
