"""The pages of what the film shows, which no check looks at."""
