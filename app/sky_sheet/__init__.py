"""The sky sheet: the picture of the sky with every rig's frame on it."""
