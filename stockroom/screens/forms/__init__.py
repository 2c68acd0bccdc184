"""The forms that lie over a piece's card or the Bench: what is asked, and what becomes of it."""
