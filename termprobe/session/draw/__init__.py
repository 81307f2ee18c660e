"""What draws: functions of the state that return rows of styled text. All pure."""
