"""What the handbook is for, in the words that every copy of its data carries."""

PURPOSE = (
    "Reference and teaching. Not for deciding the treatment of an individual: local policy, "
    "current product information and a licensed practitioner decide."
)
