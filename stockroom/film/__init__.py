"""What film does: roll geometry, age, limits and the verdict. Pure functions and frozen values."""
