"""From printed numbers to what one sample of people says: arms, contrasts, results, samples."""
