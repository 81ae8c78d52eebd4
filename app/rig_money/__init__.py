"""Money and nights: what swaps and the next step cost, and the nights the rigs are for."""
