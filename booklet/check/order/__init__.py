"""Orders of the same steps: what a step waits for, how far it can move, and whether another order sews."""
