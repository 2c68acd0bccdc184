"""What to cut from what: panels laid out on film, pieces chosen for a job. Pure."""
