"""Photo jobs in; smaller photos without a trace of where and with what they were taken, as bytes, out.

Originals are never copied. Each photo is decoded, turned upright, brought to sRGB, made smaller and painted
on a new, empty image, so that nothing but its pixels can reach the site.
"""

from __future__ import annotations

import hashlib
import io
import os
import struct
import warnings
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import Any, TypeAlias

from PIL import Image, ImageCms, ImageFile, ImageOps

from generator.model.page import PhotoJob
from generator.problems import Position, Problem, ProblemLog
from generator.write.paths import stays_inside

PhotoKey: TypeAlias = tuple[str, int, str]
"sha256 of the original, widest side in pixels, ending of the written file."
PhotoCache: TypeAlias = dict[PhotoKey, bytes]
"Made photos, kept from one build of a preview to the next."

READ_FORMATS = ("JPEG", "PNG", "WEBP")
"No other decoder is tried, whatever a file claims to be."
MOST_PIXELS = Image.MAX_IMAGE_PIXELS or 0
"Pillow's own guard against decompression bombs: a quarter of a gibibyte at 3 bytes a pixel."
MOST_AT_ONCE = 4
"Photos decoded at the same time: bounds the memory, some 100 MB each."
_DAMAGE = (OSError, SyntaxError, ValueError, TypeError, EOFError, struct.error)
"What Pillow raises on a damaged file, by format and by kind of damage."
_TOO_LARGE = (Image.DecompressionBombWarning, Image.DecompressionBombError)
_JPEG: dict[str, Any] = {"format": "JPEG", "quality": 82, "optimize": True, "progressive": True}
_SAVE: dict[str, dict[str, Any]] = {
    ".jpg": _JPEG,
    ".jpeg": _JPEG,
    ".webp": {"format": "WEBP", "quality": 80, "method": 4},
    ".png": {"format": "PNG", "optimize": True},
}
"By the ending of the written file. The qualities are common practice, no source."


def make_photos(
    jobs: tuple[PhotoJob, ...], *, book: Path, log: ProblemLog, cache: PhotoCache
) -> dict[str, bytes]:
    """Every photo by its path in the site; those that cannot be read are noted and left out.

    Afterwards the cache holds what these jobs asked for and nothing else.
    """
    at_once = min(os.cpu_count() or 1, MOST_AT_ONCE)
    with _whole_files_only(), ThreadPoolExecutor(at_once) as pool, warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a photo with odd metadata is still a photo
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        results = tuple(pool.map(lambda job: _make(job, book, cache), jobs))
    cache.clear()
    photos = {}
    for job, result in zip(jobs, results, strict=True):
        if isinstance(result, Problem):
            log.extend([result])
        else:
            key, photos[job.path] = result
            cache[key] = photos[job.path]
    return photos


@contextmanager
def _whole_files_only() -> Iterator[None]:
    """A file cut short is damaged, whatever else in this process told Pillow (weasyprint: half will do)."""
    told, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = told


def _make(job: PhotoJob, book: Path, cache: PhotoCache) -> tuple[PhotoKey, bytes] | Problem:
    """One photo, from the cache where the same original was made that small before."""
    ending = PurePosixPath(job.path).suffix.lower()
    if not stays_inside(job.source) or ending not in _SAVE or job.width < 1:
        raise ValueError(f"a photo that cannot be made: {job}")
    try:
        content = (book / job.source).read_bytes()
        key = hashlib.sha256(content).hexdigest(), job.width, ending
        return key, cache.get(key) or shrink_photo(content, widest_side=job.width, ending=ending)
    except FileNotFoundError:
        return _problem(job, "missing-photo", "is not there", "Put the file there, or mend the link to it.")
    except _TOO_LARGE:
        most = MOST_PIXELS // 1_000_000
        hint = f"Save it smaller: {most} million pixels are the most that is read."
        return _problem(job, "unreadable-photo", "has too many pixels", hint)
    except _DAMAGE:
        hint = "Open it in a photo program and save it again as JPEG."
        return _problem(job, "unreadable-photo", "is damaged, or is not JPEG, PNG or WebP", hint)


def _problem(job: PhotoJob, slug: str, what: str, hint: str) -> Problem:
    message = f"The photo '{job.source}' {what}."
    return Problem(slug=slug, message=message, hint=hint, position=Position(job.source))


def shrink_photo(content: bytes, *, widest_side: int, ending: str) -> bytes:
    """A photo in the format of the ending (.jpg, .webp, .png), its widest side at most so many pixels."""
    with Image.open(io.BytesIO(content), formats=READ_FORMATS) as original:
        original.draft(None, (2 * widest_side, 2 * widest_side))  # JPEG: decode no more than is needed
        profile = original.info.get("icc_profile")
        image = _to_srgb(ImageOps.exif_transpose(original), profile)
    image.thumbnail((widest_side, widest_side), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    _only_pixels(image, opaque=_SAVE[ending] is _JPEG).save(out, **_SAVE[ending])
    return out.getvalue()


def _to_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """RGB or RGBA in the colours every browser assumes; an unusable colour profile counts as none."""
    mode = "RGBA" if image.has_transparency_data else "RGB"
    if image.mode.startswith("I"):  # 16 bits a channel, which convert() would cut off instead of scale
        image = image.point(lambda value: value / 256).convert("L")
    if mode == "RGBA" or image.mode not in ("RGB", "L", "CMYK"):
        image = image.convert(mode)
    if not profile:
        return image.convert(mode)
    try:
        source, srgb = ImageCms.ImageCmsProfile(io.BytesIO(profile)), ImageCms.createProfile("sRGB")
        return ImageCms.profileToProfile(image, source, srgb, outputMode=mode) or image.convert(mode)
    except (ImageCms.PyCMSError, OSError):
        return image.convert(mode)


def _only_pixels(image: Image.Image, *, opaque: bool) -> Image.Image:
    """A new image with the same pixels: whatever else the file carried is left behind."""
    if opaque and image.mode == "RGBA":
        canvas = Image.new("RGB", image.size, "white")
        canvas.paste(image, mask=image.getchannel("A"))
        return canvas
    canvas = Image.new(image.mode, image.size)
    canvas.paste(image)
    return canvas
