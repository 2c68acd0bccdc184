"""One module per thing a person does: read, decide, append one act, return a value."""
