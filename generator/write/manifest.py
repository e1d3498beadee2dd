"""The list of what we wrote: paths with their hashes in, `.potherb.json` out, and back again.

It holds no time and no machine's name, so that the same site gives the same bytes.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from generator.write.paths import stays_inside

MANIFEST_NAME = ".potherb.json"
UNFINISHED_NAME = ".potherb.json.part"
"The same list while not all of its files are written yet."
FORMAT = 1
_SHA256 = re.compile(r"[0-9a-f]{64}")


class BadManifestError(Exception):
    """A manifest that cannot be trusted; the sentence says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """Every file we wrote, without the manifest itself."""

    files: Mapping[str, str] = field(default_factory=dict)
    "Path relative to the site -> sha256, in hexadecimal, of what we wrote there."

    def to_bytes(self) -> bytes:
        """As written to the site: sorted, one file a line."""
        content = {"format": FORMAT, "files": dict(sorted(self.files.items()))}
        return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode()


def manifest_of(files: Mapping[str, bytes]) -> Manifest:
    """The manifest of a site held in memory."""
    return Manifest(files={path: hashlib.sha256(content).hexdigest() for path, content in files.items()})


def read_manifest(folder: Path, name: str = MANIFEST_NAME) -> Manifest | None:
    """The manifest of a folder, or None where it has none; BadManifestError where it cannot be trusted."""
    try:
        text = (folder / name).read_bytes().decode()
        content = json.loads(text)
    except FileNotFoundError:
        return None
    except (ValueError, RecursionError) as error:
        raise BadManifestError("it is not JSON") from error
    if not isinstance(content, dict) or content.get("format") != FORMAT:
        raise BadManifestError(f"it is not of format {FORMAT}")
    return Manifest(files=_checked_files(content.get("files")))


def _checked_files(files: object) -> dict[str, str]:
    """The listed files; a path that leaves the folder could make us delete what is not ours."""
    if not isinstance(files, dict):
        raise BadManifestError("it lists no files")
    for path, digest in files.items():
        if not stays_inside(path) or path == MANIFEST_NAME:
            raise BadManifestError(f"it names {path!r}, which cannot be a file of the site")
        if not isinstance(digest, str) or not _SHA256.fullmatch(digest):
            raise BadManifestError(f"{path!r} has no sha256")
    return files


def hash_file(path: Path) -> str:
    """The sha256 of a file's content, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
