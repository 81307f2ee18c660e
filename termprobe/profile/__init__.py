"""What one kind of terminal must do: one YAML file becomes one frozen Profile, or every finding at once."""
