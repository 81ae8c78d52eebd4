"""Parts, and the rigs they make."""
