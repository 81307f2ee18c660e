"""What to try: one YAML file becomes one frozen Script of stages and steps."""
