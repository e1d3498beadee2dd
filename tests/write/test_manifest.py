"""The manifest: what we wrote, sorted, with hashes and without a time."""

from __future__ import annotations

import hashlib
from pathlib import Path

from generator.write.manifest import MANIFEST_NAME, Manifest, hash_file, manifest_of, read_manifest


def test_a_manifest_as_written() -> None:
    """The two hashes are of FIPS 180-4's own example "abc" and of the empty message (NIST, SHA-256 examples)."""
    manifest = manifest_of({"recipes/é.html": b"abc", "index.html": b""})
    assert manifest.to_bytes().decode() == (
        "{\n"
        ' "format": 1,\n'
        ' "files": {\n'
        '  "index.html": "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",\n'
        '  "recipes/é.html": "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"\n'
        " }\n"
        "}\n"
    )


def test_a_manifest_is_read_back(tmp_path: Path) -> None:
    manifest = manifest_of({"b.html": b"b", "a.html": b"a"})
    (tmp_path / MANIFEST_NAME).write_bytes(manifest.to_bytes())
    assert read_manifest(tmp_path) == manifest
    assert manifest != Manifest()


def test_no_manifest_is_none(tmp_path: Path) -> None:
    assert read_manifest(tmp_path) is None


def test_a_file_has_the_hash_of_its_content(tmp_path: Path) -> None:
    content = bytes(range(256)) * 4096
    (tmp_path / "file").write_bytes(content)
    assert hash_file(tmp_path / "file") == hashlib.sha256(content).hexdigest()
