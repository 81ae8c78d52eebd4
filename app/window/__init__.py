"""The window round the rooms: its start, its bars and menus, what it keeps."""
