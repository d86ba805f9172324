"""The certificate of this machine: checked as a browser checks it, by the TLS of Python and by the rules of X.509."""

import socket
import ssl
import threading
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from gudgeon.web.certificate import Certificate, certificate

NOW = datetime.now(UTC)
NAMES = ("localhost", "garage", "garage.local")
HERE = ("192.168.1.20",)


def made(folder: Path, *, names: tuple[str, ...] = NAMES, addresses: tuple[str, ...] = HERE, now: datetime = NOW) -> Certificate:  # fmt: skip
    return certificate(folder, names=names, addresses=addresses, now=now)


def server_of(held: Certificate) -> x509.Certificate:
    return x509.load_pem_x509_certificate(held.file.read_bytes())


def trusted(file: Path, authority: bytes, name: str) -> str:
    """What a client that trusts the authority says to a server of this certificate: nothing, or why not."""
    ours, theirs = socket.socketpair()
    inside = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    inside.load_cert_chain(file)
    outside = ssl.create_default_context(cadata=authority)

    def answer() -> None:
        try:
            with inside.wrap_socket(ours, server_side=True):
                return
        except (ssl.SSLError, OSError):
            return

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        with outside.wrap_socket(theirs, server_hostname=name):
            return ""
    except ssl.SSLCertVerificationError as error:
        return error.verify_message
    finally:
        theirs.close()
        thread.join()
        ours.close()


@pytest.mark.parametrize("name", ["localhost", "garage", "garage.local", "127.0.0.1", "192.168.1.20"])
def test_who_trusts_the_authority_trusts_this_machine(tmp_path: Path, name: str) -> None:
    held = made(tmp_path)
    assert trusted(held.file, held.authority, name) == ""


@pytest.mark.parametrize("name", ["example.org", "192.168.1.21", "other.local"])
def test_the_server_is_nobody_else(tmp_path: Path, name: str) -> None:
    held = made(tmp_path)
    assert "mismatch" in trusted(held.file, held.authority, name)


@pytest.mark.parametrize(
    ("told", "name"),
    [
        (x509.DNSName("bank.example"), "bank.example"),
        (x509.DNSName("printer.local"), "printer.local"),
        (x509.IPAddress(ip_address("8.8.8.8")), "8.8.8.8"),
    ],
    ids=str,
)
def test_the_authority_can_vouch_for_nothing_else_even_if_its_key_is_stolen(
    tmp_path: Path, told: x509.GeneralName, name: str
) -> None:
    """A thief signs for a strange name with its key; a client that trusts it refuses all the same."""
    held = made(tmp_path / "kept")
    content = (tmp_path / "kept" / "authority.pem").read_bytes()
    key, authority = load_pem_private_key(content, None), x509.load_pem_x509_certificate(content)
    assert isinstance(key, ec.EllipticCurvePrivateKey)
    own = ec.generate_private_key(ec.SECP256R1())
    forged = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([]))
        .issuer_name(authority.subject)
        .public_key(own.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(NOW - timedelta(days=1))
        .not_valid_after(NOW + timedelta(days=30))
        .add_extension(x509.SubjectAlternativeName([told]), critical=True)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(key.public_key()), critical=False)
        .sign(key, SHA256())
    )
    file = tmp_path / "forged.pem"
    file.write_bytes(
        own.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
        + forged.public_bytes(Encoding.PEM)
    )
    assert trusted(file, held.authority, name) == "permitted subtree violation"


def test_it_is_good_for_no_longer_than_browsers_take(tmp_path: Path) -> None:
    """At most 398 days from begin to end. Source: MEMORY, the rule of browsers for public authorities since 2020."""
    said = server_of(made(tmp_path))
    assert timedelta(days=300) < said.not_valid_after_utc - said.not_valid_before_utc <= timedelta(days=398)
    assert said.not_valid_before_utc < NOW


def test_it_is_kept_as_long_as_it_serves(tmp_path: Path) -> None:
    first = made(tmp_path)
    again = made(tmp_path, now=NOW + timedelta(days=300))
    assert (first.new, again.new) == (True, False)
    assert again.authority == first.authority
    assert server_of(again) == server_of(first)


def test_a_new_address_or_its_end_makes_a_new_one_of_the_same_authority(tmp_path: Path) -> None:
    first = made(tmp_path)
    serial = server_of(first).serial_number
    moved = made(tmp_path, addresses=("10.0.0.7",))
    assert server_of(moved).serial_number != serial
    serial = server_of(moved).serial_number
    later = made(tmp_path, addresses=("10.0.0.7",), now=NOW + timedelta(days=380))
    assert server_of(later).serial_number != serial
    assert first.authority == moved.authority == later.authority


def test_another_name_of_the_machine_wants_another_authority(tmp_path: Path) -> None:
    first = made(tmp_path)
    renamed = made(tmp_path, names=("localhost", "shed", "shed.local"))
    assert renamed.new
    assert renamed.authority != first.authority
    assert trusted(renamed.file, renamed.authority, "shed.local") == ""
    assert trusted(renamed.file, first.authority, "shed.local") != ""


@pytest.mark.parametrize("name", ["authority.pem", "server.pem"])
def test_what_is_damaged_is_made_anew(tmp_path: Path, name: str) -> None:
    made(tmp_path)
    for content in (b"", b"garbage", (tmp_path / name).read_bytes()[:300]):
        (tmp_path / name).write_bytes(content)
        held = made(tmp_path)
        assert held.new is (name == "authority.pem")
        assert trusted(held.file, held.authority, "garage.local") == ""


def test_keys_are_read_by_this_user_alone(tmp_path: Path) -> None:
    made(tmp_path / "kept")
    assert (tmp_path / "kept").stat().st_mode & 0o077 == 0
    files = list((tmp_path / "kept").iterdir())
    assert sorted(file.name for file in files) == ["authority.pem", "server.pem"]
    assert [file.stat().st_mode & 0o077 for file in files] == [0, 0]


def test_an_address_of_the_world_is_not_vouched_for(tmp_path: Path) -> None:
    held = made(tmp_path, addresses=("8.8.8.8", "192.168.1.20"))
    told = server_of(held).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert [str(one) for one in told.get_values_for_type(x509.IPAddress)] == ["127.0.0.1", "192.168.1.20"]
