"""What several rooms of the window use: words, colours, small widgets, jobs."""
