"""What is used up, worked out from the sheet and the job; and the tools that the job needs and the kit lacks."""
