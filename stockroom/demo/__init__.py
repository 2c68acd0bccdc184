"""The generator of the invented shop."""
