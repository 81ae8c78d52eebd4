"""The shelf: parts and rigs in a file, taken in, changed, handed out."""
