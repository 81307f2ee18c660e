"""Signals that end the program interrupt it; those that its user has it ignore do not."""

import signal

import pytest

from termprobe.cli.signals import end_undisturbed, interrupt_on_signals

OWN = signal.default_int_handler


@pytest.fixture
def kept():
    before = {number: signal.getsignal(number) for number in signal.valid_signals()}
    yield
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, before[number])


@pytest.mark.parametrize(
    "before, during", [(signal.SIG_DFL, OWN), (signal.SIG_IGN, signal.SIG_IGN)]
)
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_each_interrupts_unless_it_is_ignored(kept, number, before, during):
    signal.signal(number, before)
    interrupt_on_signals()
    assert signal.getsignal(number) == during


def test_the_end_is_as_it_was_to_be_and_ctrl_c_ends_at_once(kept):
    signal.signal(signal.SIGINT, OWN)
    interrupt_on_signals()
    end_undisturbed()
    found = [signal.getsignal(n) for n in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)]
    assert found == [signal.SIG_DFL, signal.SIG_IGN, signal.SIG_IGN]


def test_a_signal_is_an_interrupt(kept):
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    interrupt_on_signals()
    with pytest.raises(KeyboardInterrupt):
        signal.raise_signal(signal.SIGTERM)
