"""Records from files of other programs: looked through line by line before anything is kept."""
