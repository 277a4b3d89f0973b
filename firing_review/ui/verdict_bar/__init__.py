"""The answer at the top: a sentence, three marks, one next check."""
