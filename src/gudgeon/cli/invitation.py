"""What the terminal says of where the pages are, how another device is let in, and what that protects."""

import sys
from dataclasses import dataclass
from datetime import datetime

from gudgeon.cli.show import clean, program, say
from gudgeon.web.certificate import Certificate
from gudgeon.web.code_picture import as_text
from gudgeon.web.devices import VALID, spaced
from gudgeon.web.network import addresses, names, pairing_address


@dataclass(frozen=True, slots=True)
class Line:
    """How the server is reached: by which scheme, on which port, from this machine alone or from the network."""

    scheme: str
    port: int
    lan: bool

    @property
    def here(self) -> str:
        """Its address on this machine."""
        return f"{self.scheme}://127.0.0.1:{self.port}/"

    @property
    def there(self) -> tuple[str, ...]:
        """Its addresses for other devices, the surest first; the name is told last, as not every network knows it."""
        called = tuple(one for one in names() if one.endswith(".local"))
        return tuple(f"{self.scheme}://{one}:{self.port}/" for one in (*addresses(), *called))


def greet(line: Line, *, book: str, pairing: str) -> None:
    """Where the pages are, and how the browser of this machine is let in."""
    alone = "to this machine alone; " if not line.lan else ""
    print(f"Gudgeon is served at {line.here}  ({alone}Ctrl-C ends it)")
    if line.lan:
        print(f"On the network: {'  or '.join(line.there)}")
    print(f"The book: {clean(book)}")
    print(
        f"To write into it, a browser opens this address once, within {_minutes()} minutes: {pairing}",
        flush=True,
    )


def invite_another(line: Line, *, code: str, until: datetime) -> None:
    """Let a phone in: its camera reads the picture, or the address and the code are typed."""
    print()
    if not addresses():
        say("This machine is on no network now: no other device can reach it. Join one, then start again.")
    show_code(line.there[0], code=code, until=until)
    print()
    if line.scheme == "http":
        say(
            "The line is plain HTTP, not encrypted: anybody on the same network could read what a device sends, and "
            "copy the secret that lets it in. Do this on a network of your own only. A line that nobody can read: "
            f"{program()} serve --lan --https"
        )
    sys.stdout.flush()


def show_code(address: str, *, code: str, until: datetime) -> None:
    """A code with the address at which it is used, as a picture too."""
    print(as_text(pairing_address(address, code=code), colored=sys.stdout.isatty()))
    print(f"To let a phone in, point its camera at this, or open {address} on it and type the code:")
    print(f"\n    {spaced(code)}\n")
    say(
        f"It is good once, until {until.astimezone():%H:%M}. Another one: {program()} devices --invite, or the page "
        "Devices of a device that is paired."
    )


def tell_certificate(held: Certificate) -> None:
    """What the certificate of this machine is, and what it means to trust it."""
    if held.new:
        say(
            "A certificate authority of this machine's own was made: devices that trusted an older one trust it anew."
        )
    say(
        "As long as a device does not trust it, its browser warns, and keeps no page for when the line is gone. Get it "
        "with that device from the page Devices (or the address /certificate); what it shows as SHA-256 must be:"
    )
    print(f"    {held.fingerprint}")
    say(
        "It vouches for this machine and for addresses of local networks, for nothing else. Remove it from the device "
        "in the same place when you do not need it any more."
    )
    sys.stdout.flush()


def _minutes() -> int:
    return int(VALID.total_seconds()) // 60
