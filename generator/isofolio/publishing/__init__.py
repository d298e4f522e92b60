"""Putting a finished folder where readers open it. Folders only: nothing here knows MkDocs."""
