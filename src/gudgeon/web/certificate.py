"""A certificate of this machine's own, so that what a device sends over the network cannot be read on the way.

An authority is made once for this user on this machine. It can vouch for addresses of local networks and for the
names of this machine alone, so that whoever trusts it trusts it for nothing else. It signs a certificate for the
names and addresses that the machine has now, anew when these change and in good time before it ends.
"""

import os
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import ip_address, ip_network
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey

NEIGHBORS = (
    "127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "100.64.0.0/10",
    "192.0.2.0/24", "198.51.100.0/24", "203.0.113.0/24", "::1/128", "fc00::/7", "fe80::/10",
)  # fmt: skip
"""What the authority may vouch for. Source: PRINTED, RFC 1122, 1918, 3927, 6598, 5737, 4193, 4291: addresses that no
machine outside can be reached by."""
SERVER_LASTS = timedelta(days=397)
"""COMMON PRACTICE, from memory: browsers refuse a longer one where the authority is a public one (398 days), some
beyond 825 days whoever signed it."""
AUTHORITY_LASTS = timedelta(days=5 * 365)
RENEWED = timedelta(days=30)
"""How long before its end a certificate is made anew."""
EARLIER = timedelta(days=1)
"""It is good from a day before: the clock of a phone may be behind."""


@dataclass(frozen=True, slots=True)
class Certificate:
    """What the server shows, what a device may trust, and how to tell that it is the right one."""

    file: Path
    """Key and certificate of the server."""
    authority: bytes
    """The certificate of the authority (DER), without its key."""
    fingerprint: str
    """SHA-256 of `authority`, as devices show it."""
    new: bool
    """Whether the authority was made just now: devices that trust one of before do not trust this."""


@dataclass(frozen=True, slots=True)
class _Pair:
    key: "EllipticCurvePrivateKey"
    said: "x509.Certificate"


def certificate(
    folder: Path, *, names: tuple[str, ...], addresses: tuple[str, ...], now: datetime
) -> Certificate:
    """The certificate for these names and addresses: the one that is there, if it serves, else a new one."""
    from cryptography.hazmat.primitives.hashes import SHA256
    from cryptography.hazmat.primitives.serialization import Encoding

    authority, server = _read(folder / "authority.pem"), _read(folder / "server.pem")
    new = authority is None or _ends(authority, now) or not _may_vouch(authority, names)
    if authority is None or new:
        authority = _authority(names, now)
        _write(folder, "authority.pem", authority)
    wanted = ("127.0.0.1", *(one for one in addresses if _is_neighbor(one)))
    if server is None or _ends(server, now) or not _vouches(server, authority, names, wanted):
        server = _server(authority, names, wanted, now)
        _write(folder, "server.pem", server)
    digits = authority.said.fingerprint(SHA256()).hex().upper()
    shown = ":".join(digits[at : at + 2] for at in range(0, len(digits), 2))
    return Certificate(folder / "server.pem", authority.said.public_bytes(Encoding.DER), shown, new)


def _authority(names: tuple[str, ...], now: datetime) -> _Pair:
    """A key that may sign for this machine on local networks, and for nothing else."""
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.hazmat.primitives.hashes import SHA256

    key = ec.generate_private_key(ec.SECP256R1())
    called = _called(f"Gudgeon on {names[-1]} {secrets.token_hex(3)}")
    only = x509.NameConstraints(
        [*(x509.DNSName(one) for one in names), *(x509.IPAddress(ip_network(one)) for one in NEIGHBORS)], None
    )
    said = (
        _begun(called, called, now, AUTHORITY_LASTS, key)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_use(signs=True), critical=True)
        .add_extension(only, critical=True)
        .sign(key, SHA256())
    )
    return _Pair(key, said)


def _server(authority: _Pair, names: tuple[str, ...], addresses: tuple[str, ...], now: datetime) -> _Pair:
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.hazmat.primitives.hashes import SHA256
    from cryptography.x509.oid import ExtendedKeyUsageOID

    key = ec.generate_private_key(ec.SECP256R1())
    told = [*map(x509.DNSName, names), *(x509.IPAddress(ip_address(one)) for one in addresses)]
    lasts = min(SERVER_LASTS, authority.said.not_valid_after_utc - now)
    public = authority.key.public_key()
    said = (
        _begun(_called(names[-1]), authority.said.subject, now, lasts, key)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_use(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(told), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(public), critical=False)
        .sign(authority.key, SHA256())
    )
    return _Pair(key, said)


def _begun(
    subject: "x509.Name", issuer: "x509.Name", now: datetime, lasts: timedelta, key: "EllipticCurvePrivateKey"
) -> "x509.CertificateBuilder":
    from cryptography import x509

    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - EARLIER)
        .not_valid_after(now - EARLIER + lasts)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _called(name: str) -> "x509.Name":
    from cryptography import x509
    from cryptography.x509.oid import NameOID

    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name[:64])])  # the most that X.520 allows


def _use(*, signs: bool) -> "x509.KeyUsage":
    from cryptography import x509

    return x509.KeyUsage(
        digital_signature=not signs, content_commitment=False, key_encipherment=False, data_encipherment=False,
        key_agreement=False, key_cert_sign=signs, crl_sign=signs, encipher_only=False, decipher_only=False,
    )  # fmt: skip


def _ends(pair: _Pair, now: datetime) -> bool:
    """Whether it is over soon, or not good yet: then a clock was wrong when it was made."""
    return not pair.said.not_valid_before_utc <= now < pair.said.not_valid_after_utc - RENEWED


def _may_vouch(authority: _Pair, names: tuple[str, ...]) -> bool:
    """Whether the authority was made for a machine of these names."""
    from cryptography import x509

    only = authority.said.extensions.get_extension_for_class(x509.NameConstraints).value
    allowed = {one.value for one in only.permitted_subtrees or () if isinstance(one, x509.DNSName)}
    return set(names) <= allowed


def _vouches(server: _Pair, authority: _Pair, names: tuple[str, ...], addresses: tuple[str, ...]) -> bool:
    """Whether a certificate is signed by this authority and says every one of these names and addresses."""
    from cryptography import x509
    from cryptography.exceptions import InvalidSignature

    try:
        server.said.verify_directly_issued_by(authority.said)
    except (InvalidSignature, ValueError, TypeError):
        return False
    told = server.said.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    figures = {str(one) for one in told.get_values_for_type(x509.IPAddress)}
    return set(names) <= set(told.get_values_for_type(x509.DNSName)) and set(addresses) <= figures


def _is_neighbor(address: str) -> bool:
    read = ip_address(address)
    return any(read in ip_network(one) for one in NEIGHBORS)


def _read(file: Path) -> _Pair | None:
    """A key and its certificate; nothing where they are gone, damaged, or do not belong together."""
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    try:
        content = file.read_bytes()
        key, said = load_pem_private_key(content, None), x509.load_pem_x509_certificate(content)
    except (OSError, ValueError):
        return None
    if not isinstance(key, EllipticCurvePrivateKey) or key.public_key() != said.public_key():
        return None
    return _Pair(key, said)


def _write(folder: Path, name: str, pair: _Pair) -> None:
    """Key and certificate in one file that only this user can read; it is there whole, or not at all."""
    from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    half = folder / f".{secrets.token_hex(6)}"
    with os.fdopen(os.open(half, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
        file.write(pair.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
        file.write(pair.said.public_bytes(Encoding.PEM))
    half.replace(folder / name)
