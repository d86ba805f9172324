"""The questions asked at the bench: the only place where sheet, kit, book, kernels and clock meet."""
