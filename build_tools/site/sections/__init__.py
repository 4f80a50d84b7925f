"""What several pages show: comparisons, rankings, references, cautions."""
