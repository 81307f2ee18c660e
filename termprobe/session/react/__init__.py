"""What reacts: functions of the state and a key, or an event.

They return the state after it and requests. All pure.
"""
