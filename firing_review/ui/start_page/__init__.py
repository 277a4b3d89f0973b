"""The first page: drop a log, open a demo, go on with what was open before."""
