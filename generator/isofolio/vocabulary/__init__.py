"""Every closed list of the project. Imports nothing of ours."""
