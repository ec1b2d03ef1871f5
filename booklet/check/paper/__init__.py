"""What the outlines say of what is sewn, for the rules that measure."""
