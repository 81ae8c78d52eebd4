"""The rig sheet: what a rig is made of, what it costs, what speaks against it, to hand out."""
