"""Labels: a label as a picture in printer dots, and as a file to print."""
