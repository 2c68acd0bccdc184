"""The full-screen side of the tool."""
