"""One module per migration."""
