"""What an educator takes away to teach a muscle: slides, pictures, a table, references, notes."""
