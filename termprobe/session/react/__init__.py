"""What reacts: functions of the state and a key, or an event, that return the state after it and requests. All pure."""
