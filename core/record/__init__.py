"""Records whose every field is checked, and the files they are kept in."""
