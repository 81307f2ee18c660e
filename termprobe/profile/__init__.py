"""What one kind of terminal must do: one YAML file becomes one frozen Profile."""
