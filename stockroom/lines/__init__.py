"""What is known, in the words and cells people read; screens and commands share it."""
