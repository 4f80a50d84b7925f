"""Names, amounts and rounding as they stand in sentences and files."""
