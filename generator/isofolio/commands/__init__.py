"""The commands, a module for each thing one wants to do; `cli.py` lists them."""
