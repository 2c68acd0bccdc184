"""The commands, one module per family: build a request, call, print."""
