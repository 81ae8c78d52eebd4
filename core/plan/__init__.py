"""The saved plan: its record, its edits, its file."""
