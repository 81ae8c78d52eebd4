"""Everything Skysill computes, without a window."""
