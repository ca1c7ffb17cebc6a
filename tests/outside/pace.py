"""How fast this machine is just now, beside one on which a million steps of a counter take Python 0.1 s: seconds that a test
allows are those of that machine. What hangs or runs away takes many times as long on any."""
import time


def slower(clock=time.process_time):
    """How many times as long the counter takes here; 1 where it takes less. By the processor's time, or by the wall's, in
    which what else the machine does counts as well."""
    began, value = clock(), 0
    for i in range(1_000_000):
        value = (value * 1103515245 + i) & 0xFFFFFFFF
    return max(1.0, (clock() - began) / 0.1)
