"""The window and the command line of Skysill: they show, core computes."""
