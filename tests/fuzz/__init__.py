"""Nothing breaks it: inputs mutated at random, each of which must end in a clean result or in a located error with help: ``make fuzz``."""
