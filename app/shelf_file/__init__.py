"""The shelf's file while the window is open: kept, and followed when others change it."""
