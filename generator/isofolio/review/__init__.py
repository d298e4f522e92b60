"""What a reviewer is shown of a change."""
