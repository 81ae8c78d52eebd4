"""Stars and deep-sky objects that come with the program."""
