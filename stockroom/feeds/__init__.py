"""Files and devices that bring facts in, and findings about what could not be read."""
