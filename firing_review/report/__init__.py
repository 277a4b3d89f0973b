"""A review as a document: text, review JSON, sentences with figures."""
