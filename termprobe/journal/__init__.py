"""The run file: append only, checked line by line, readable years later."""
