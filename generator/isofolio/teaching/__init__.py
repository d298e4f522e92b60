"""For those who teach: worksheets, questions and practice, computed from the handbook."""
