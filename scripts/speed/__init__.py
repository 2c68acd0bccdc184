"""How fast the program is beside the libraries it stands on, all in one run."""
