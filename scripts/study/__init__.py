"""Studies on invented data of known truth: how far what is fitted can be believed."""
