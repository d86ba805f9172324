"""The beginnings of photos and of what is none, by the signatures of their formats."""

JPEG = b"\xff\xd8\xff\xe0" + b"page forty-nine"
PNG = b"\x89PNG\r\n\x1a\n" + b"page fifty"
WEBP = b"RIFF\x1a\x00\x00\x00WEBPVP8 " + b"page three"
NO_PHOTOS = {
    "page.svg": b"<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>",
    "page.html.jpg": b"<!doctype html><script>x()</script>",
    "page.pdf": b"%PDF-1.7",
    "page.gif": b"GIF89a",
    "sound.webp": b"RIFF\x1a\x00\x00\x00WAVEfmt ",
    "empty.jpg": b"",
    "short.jpg": b"\xff\xd8",
}
