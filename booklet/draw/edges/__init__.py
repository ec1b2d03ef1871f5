"""The page of `notchbook edges`: every piece with its corners, notches, dots, inner lines and edges told apart."""
