"""A serial cable in this process, and the two ends that it joins, in time that can be cranked."""
