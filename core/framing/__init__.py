"""How a target sits in a frame."""
