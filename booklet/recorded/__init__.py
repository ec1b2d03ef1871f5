"""What was really filmed: captions, markers or an edit list -> which step is sewn when, and film against booklet."""
