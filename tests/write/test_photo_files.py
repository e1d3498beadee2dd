"""Photos leave the book smaller, upright, in sRGB, and without a trace of where they were taken."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image, ImageCms, ImageFile
from PIL.PngImagePlugin import PngInfo

from generator.model.page import Page, PhotoJob, Site
from generator.problems import Position, ProblemLog
from generator.write.output import write_site
from generator.write.photos import PhotoCache, make_photos, shrink_photo

PhotoBytes = Callable[..., bytes]

ORIENTATION, GPS = 0x0112, 0x8825
"Tags of TIFF 6.0, section 8, and of Exif 2.3, section 4.6.3."
XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><exif:GPSLatitude>46,30.5N</exif:GPSLatitude></x:xmpmeta>'
TRACES = (b"Exif", b"GPSLatitude", b"xmpmeta", b"behind the old mill", b"Cam-Maker", b"ICC_PROFILE", b"iCCP")


def traced(make: PhotoBytes, kind: str, size: tuple[int, int] = (80, 60), orientation: int = 1) -> bytes:
    """A photo that says in every way its format knows where it was taken."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x010F] = "Cam-Maker"
    exif.get_ifd(GPS).update({1: "N", 2: (46.0, 30.0, 30.0), 3: "W", 4: (114.0, 5.0, 1.0)})
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    options: dict[str, object] = {"exif": exif, "xmp": XMP, "icc_profile": profile}
    if kind == "JPEG":
        options["comment"] = b"behind the old mill"
    if kind == "PNG":
        chunks = PngInfo()
        chunks.add_text("Comment", "behind the old mill")
        chunks.add_itxt("XML:com.adobe.xmp", XMP.decode())
        options["pnginfo"] = chunks
    return make(size, kind, **options)


def opened(content: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(content))
    image.load()
    return image


@pytest.mark.parametrize("ending", [".jpg", ".webp", ".png"])
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_nothing_of_the_metadata_leaves(photo_bytes: PhotoBytes, kind: str, ending: str) -> None:
    original = traced(photo_bytes, kind)
    assert opened(original).getexif().get_ifd(GPS), "the original must have a place to lose"
    assert b"xmpmeta" in original
    made = shrink_photo(original, widest_side=40, ending=ending)
    assert [trace for trace in TRACES if trace in made] == []
    image = opened(made)
    assert dict(image.getexif()) == {}
    assert not {"exif", "xmp", "comment", "icc_profile", "Comment", "XML:com.adobe.xmp"} & image.info.keys()


@pytest.mark.parametrize(
    ("orientation", "red", "green"),
    [
        (1, "top left", "top right"),
        (2, "top right", "top left"),
        (3, "bottom right", "bottom left"),
        (4, "bottom left", "bottom right"),
        (5, "top left", "bottom left"),
        (6, "top right", "bottom right"),
        (7, "bottom right", "top right"),
        (8, "bottom left", "top left"),
    ],
)
def test_photos_are_turned_upright(orientation: int, red: str, green: str) -> None:
    """TIFF 6.0, section 8, Orientation: where the stored row 0 and column 0 are to be seen.

    Red is stored where row 0 meets column 0, green at the other end of row 0.
    """
    stored = Image.new("RGB", (80, 60), "white")
    stored.paste("red", (0, 0, 40, 30))
    stored.paste("lime", (40, 0, 80, 30))
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    out = io.BytesIO()
    stored.save(out, "JPEG", quality=95, exif=exif)
    image = opened(shrink_photo(out.getvalue(), widest_side=80, ending=".jpg"))
    assert image.size == ((80, 60) if orientation < 5 else (60, 80))
    seen = {}
    for where in ("top left", "top right", "bottom left", "bottom right"):
        x = image.width // 4 if "left" in where else image.width * 3 // 4
        y = image.height // 4 if "top" in where else image.height * 3 // 4
        pixel = image.getpixel((x, y))
        assert isinstance(pixel, tuple)
        seen[tuple(value > 127 for value in pixel)] = where
    assert seen[(True, False, False)] == red
    assert seen[(False, True, False)] == green


@pytest.mark.parametrize(
    ("size", "width", "expected"),
    [
        ((800, 600), 400, (400, 300)),
        ((600, 800), 400, (300, 400)),
        ((80, 60), 400, (80, 60)),
        ((4000, 30), 40, (40, 1)),
    ],
)
def test_the_widest_side_decides_and_nothing_grows(
    photo_bytes: PhotoBytes, size: tuple[int, int], width: int, expected: tuple[int, int]
) -> None:
    assert opened(shrink_photo(photo_bytes(size), widest_side=width, ending=".jpg")).size == expected


def test_colours_are_brought_to_srgb(photo_bytes: PhotoBytes) -> None:
    """A profile that calls red blue and blue red: sRGB with the names of two tags exchanged."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    turned = profile.replace(b"rXYZ", b"????", 1).replace(b"bXYZ", b"rXYZ", 1).replace(b"????", b"bXYZ", 1)
    image = opened(shrink_photo(photo_bytes(icc_profile=turned), widest_side=80, ending=".png"))
    left, right = image.getpixel((10, 30)), image.getpixel((70, 30))
    assert isinstance(left, tuple)
    assert isinstance(right, tuple)
    assert left[2] > 200 > 60 > left[0]
    assert right[0] > 200 > 60 > right[2]


def test_a_broken_colour_profile_counts_as_none(photo_bytes: PhotoBytes) -> None:
    image = opened(shrink_photo(photo_bytes(icc_profile=b"not a profile"), widest_side=80, ending=".jpg"))
    left = image.getpixel((10, 30))
    assert isinstance(left, tuple)
    assert left[0] > 200 > 60 > left[2]


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "CMYK", "I;16"])
def test_every_kind_of_pixel_is_read(mode: str) -> None:
    """Middle grey stays middle grey in every mode, 16 bits a channel too; one bit a pixel knows no grey."""
    if mode == "I;16":
        source = Image.new("I;16", (20, 20), 0x8000)
    else:
        source = Image.new("L", (20, 20), 128).convert(mode, dither=Image.Dither.NONE)
    out = io.BytesIO()
    source.save(out, "JPEG" if mode == "CMYK" else "PNG")
    image = opened(shrink_photo(out.getvalue(), widest_side=10, ending=".jpg"))
    pixel = image.getpixel((5, 5))
    assert image.mode == "RGB"
    assert isinstance(pixel, tuple)
    expected = 255 if mode == "1" else 128
    assert all(abs(value - expected) <= 3 for value in pixel), pixel


def test_transparency_stays_in_png_and_turns_white_in_jpeg() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (20, 20), (200, 10, 10, 0)).save(out, "PNG")
    png = opened(shrink_photo(out.getvalue(), widest_side=10, ending=".png"))
    assert (png.format, png.mode) == ("PNG", "RGBA")
    assert png.getpixel((5, 5)) in [(200, 10, 10, 0), (0, 0, 0, 0)]
    jpeg = opened(shrink_photo(out.getvalue(), widest_side=10, ending=".jpg"))
    assert jpeg.getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize("ending", [".jpg", ".jpeg", ".webp", ".png"])
def test_the_same_photo_gives_the_same_bytes(photo_bytes: PhotoBytes, ending: str) -> None:
    original = traced(photo_bytes, "JPEG", (300, 200))
    assert len({shrink_photo(original, widest_side=100, ending=ending) for _ in range(3)}) == 1


def job(source: str = "photos/shank.jpg", path: str = "photos/shank-40.jpg", width: int = 40) -> PhotoJob:
    return PhotoJob(source=source, path=path, width=width)


def test_a_site_holds_the_made_photo_and_never_the_original(
    photo_bytes: PhotoBytes, book: Path, into: Path
) -> None:
    original = traced(photo_bytes, "JPEG")
    (book / "photos" / "shank.jpg").write_bytes(original)
    site = Site(
        pages=(Page(path="index.html", html='<img src="photos/shank-400.jpg">'),),
        photos=(job(path="photos/shank-400.jpg", width=400),),
    )
    assert write_site(site, into=into, book=book, log=ProblemLog()).done
    files = {
        path.relative_to(into).as_posix(): path.read_bytes() for path in into.rglob("*") if path.is_file()
    }
    assert opened(files["photos/shank-400.jpg"]).size == (80, 60)
    assert original not in files.values()
    for trace in TRACES:
        assert all(trace not in content for content in files.values())


def png_that_claims(width: int, height: int) -> bytes:
    """A PNG of a few bytes that claims so many pixels (PNG specification, sections 5.3 and 11.2.2)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    pixels = zlib.compress(b"\0" * 100)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    "content", [b"", b"not a photo", b"\xff\xd8\xff\xe0", "cut off", "a drawing program's"]
)
def test_a_damaged_photo_is_a_problem(book: Path, photo_bytes: PhotoBytes, content: bytes | str) -> None:
    if content == "cut off":
        content = photo_bytes((400, 300))[:-2000]
    elif content == "a drawing program's":
        content = photo_bytes(kind="EPS")
    assert isinstance(content, bytes)
    (book / "photos" / "shank.jpg").write_bytes(content)
    log = ProblemLog()
    assert make_photos((job(), job(width=20)), book=book, log=log, cache={}) == {}
    (problem,) = log
    assert problem.slug == "unreadable-photo"
    assert problem.position == Position("photos/shank.jpg")
    assert problem.message == "The photo 'photos/shank.jpg' is damaged, or is not JPEG, PNG or WebP."
    assert problem.hint


def test_a_photo_cut_short_is_a_problem_after_a_pdf_was_made(
    book: Path, photo_bytes: PhotoBytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    """weasyprint's import tells Pillow, for the whole process, to make do with half a file."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    (book / "photos" / "shank.jpg").write_bytes(photo_bytes((400, 300))[:-2000])
    log = ProblemLog()
    assert make_photos((job(),), book=book, log=log, cache={}) == {}
    assert [problem.slug for problem in log] == ["unreadable-photo"]
    assert ImageFile.LOAD_TRUNCATED_IMAGES, "left as it was found"


@pytest.mark.parametrize("side", [10_000, 20_000, 2**31 - 1])
def test_a_photo_of_too_many_pixels_is_a_problem(book: Path, side: int) -> None:
    (book / "photos" / "shank.jpg").write_bytes(png_that_claims(side, side))
    log = ProblemLog()
    assert make_photos((job(),), book=book, log=log, cache={}) == {}
    (problem,) = log
    assert problem.slug == "unreadable-photo"
    assert "too many pixels" in problem.message


def test_a_missing_photo_is_a_problem_and_nothing_is_written(book: Path, into: Path) -> None:
    log = ProblemLog()
    site = Site(pages=(Page(path="index.html", html=""),), photos=(job(),))
    assert not write_site(site, into=into, book=book, log=log).done
    assert [problem.slug for problem in log] == ["missing-photo"]
    assert not into.exists()


def test_a_photo_outside_the_book_or_of_an_unknown_kind_is_a_bug(book: Path) -> None:
    for bad in (job(source="../secret.jpg"), job(source="/secret.jpg"), job(path="a.tiff"), job(width=0)):
        with pytest.raises(ValueError, match="cannot be made"):
            make_photos((bad,), book=book, log=ProblemLog(), cache={})


def test_an_unchanged_photo_is_made_once_and_old_ones_are_forgotten(
    book: Path, photo_bytes: PhotoBytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, cache = book / "photos" / "shank.jpg", PhotoCache()
    made = []

    def count(content: bytes, *, widest_side: int, ending: str) -> bytes:
        made.append((len(content), widest_side, ending))
        return shrink_photo(content, widest_side=widest_side, ending=ending)

    monkeypatch.setattr("generator.write.photos.shrink_photo", count)
    jobs = (job(), job(path="photos/shank-20.jpg", width=20), job(path="photos/shank-20.webp", width=20))
    file.write_bytes(photo_bytes((200, 100)))
    first = make_photos(jobs, book=book, log=ProblemLog(), cache=cache)
    assert make_photos(jobs, book=book, log=ProblemLog(), cache=cache) == first
    assert len(made) == 3
    file.write_bytes(photo_bytes((100, 200)))
    second = make_photos(jobs, book=book, log=ProblemLog(), cache=cache)
    assert len(made) == 6
    assert set(second.values()).isdisjoint(first.values())
    assert len(cache) == 3
