"""When it will run, what is bought, and what will wear out before the next opening."""
