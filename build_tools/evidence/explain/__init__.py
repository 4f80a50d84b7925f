"""The whole chain from a reported number to a claim's sentence, as plain text (``handbook explain``)."""
