"""The rig bench: the chosen rig's parts, drawn as the way of the light, and their figures."""
