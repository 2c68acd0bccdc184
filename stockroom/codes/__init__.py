"""What is printed on a label and what a scanner sends: codes of our own, bursts of keys, recognition."""
