"""One module a kind of page: display strings in, HTML out."""
