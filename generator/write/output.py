"""A finished site in; its files in a folder, whole, or nothing written and the reasons in the log, out.

Order of the work: links and paths are checked, photos are made, then under the lock the folder is surveyed,
the new site is built beside it and the two are exchanged. Any problem before the exchange changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from generator.model.page import Site
from generator.problems import ProblemLog
from generator.write.calendar import calendar_bytes
from generator.write.links import check_links
from generator.write.lock import BuildRunningError, only_build
from generator.write.manifest import MANIFEST_NAME, Manifest, manifest_of
from generator.write.ownership import Survey, find_in_the_way, meets_book, survey_folder
from generator.write.paths import check_paths, is_hidden
from generator.write.photos import PhotoCache, make_photos
from generator.write.swap import has_foreign_leftover, repair, stage, swap


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteReport:
    """What became of the folder."""

    into: Path
    done: bool = False
    "False: problems are in the log, and the folder is as it was."
    pages: int = 0
    added: tuple[str, ...] = ()
    rewritten: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    "Visible files that are not ours and were left alone."

    @property
    def changed(self) -> int:
        """How many files differ from the site that was there before."""
        return len(self.added) + len(self.rewritten) + len(self.removed)


def write_site(
    site: Site, *, into: Path, book: Path, log: ProblemLog, photos: PhotoCache | None = None
) -> WriteReport:
    """Write the site to `into`; a broken link or an impossible path is our bug and raises.

    `photos` remembers made photos from one build to the next, for a preview.
    """
    check_paths(_all_paths(site))
    check_links(site)
    into = _settle(into)
    report = WriteReport(into=into, pages=len(site.pages))
    if meets_book(into, book, log):
        return report
    made = make_photos(site.photos, book=book, log=log, cache={} if photos is None else photos)
    if log.has_errors:
        return report
    return _write_alone(_files_of(site) | made, report, log)


def _settle(into: Path) -> Path:
    """Absolute, with links followed in every part but the last, which may not be a link."""
    if into.name in ("", ".."):
        return into.resolve()
    return into.parent.resolve() / into.name


def _all_paths(site: Site) -> tuple[str, ...]:
    """The manifest's own among them."""
    pages, assets = (page.path for page in site.pages), (asset.path for asset in site.assets)
    photos, calendars = (photo.path for photo in site.photos), (job.path for job in site.calendars)
    return (MANIFEST_NAME, *pages, *assets, *photos, *calendars)


def _files_of(site: Site) -> dict[str, bytes]:
    pages = {page.path: page.html.encode() for page in site.pages}
    assets = {asset.path: asset.content for asset in site.assets}
    return pages | assets | {job.path: calendar_bytes(job) for job in site.calendars}


def _write_alone(files: Mapping[str, bytes], report: WriteReport, log: ProblemLog) -> WriteReport:
    """Write under the lock; what the system refuses is the author's to mend and no bug."""
    into = report.into
    try:
        into.parent.mkdir(parents=True, exist_ok=True)
        with only_build(into):
            return _write_surveyed(files, report, log)
    except BuildRunningError:
        hint = "Wait until it is done, then build again."
        log.add("build-running", None, f"Another build is writing to '{into}'.", hint)
    except OSError as error:
        reason = error.strerror or str(error)
        hint = "Look at its rights and at the space left, or name another folder with --into."
        log.add("cannot-write", None, f"'{into}' cannot be written: {reason}.", hint)
    return report


def _write_surveyed(files: Mapping[str, bytes], report: WriteReport, log: ProblemLog) -> WriteReport:
    """Repair, survey, build beside, exchange; and repair again, however it went."""
    into = report.into
    if has_foreign_leftover(into, log):
        return report
    try:
        repair(into)
        survey = survey_folder(into, log)
        if survey is None:
            return report
        find_in_the_way(survey, files.keys(), into, log)
        if log.has_errors:
            return report
        manifest = manifest_of(files)
        if manifest != survey.manifest or files.keys() != survey.ours:
            stage(files, manifest, survey, into)
            swap(into)
        return _compare(manifest, survey, report)
    finally:
        repair(into)


def _compare(manifest: Manifest, survey: Survey, report: WriteReport) -> WriteReport:
    """What this build added, changed and removed."""
    before, after = survey.manifest.files, manifest.files
    return replace(
        report,
        done=True,
        added=tuple(sorted(after.keys() - survey.ours)),
        rewritten=tuple(sorted(path for path in survey.ours & after.keys() if before[path] != after[path])),
        removed=tuple(sorted(survey.ours - after.keys())),
        kept=tuple(path for path in survey.foreign if not is_hidden(path)),
    )
