"""The strip of rigs at the bottom: a card each, drawn at one scale."""
