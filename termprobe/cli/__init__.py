"""Words on the command line to the folders below; one file a command."""
