"""Pages to print and hand out; the only room of core that draws with matplotlib.

Nothing here is imported at the start of the program, and matplotlib only by what draws.
"""
