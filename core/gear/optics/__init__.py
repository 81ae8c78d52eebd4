"""What the light meets on its way through a rig, and what is left of it."""
