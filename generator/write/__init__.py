"""Stage 5, write: finished pages, assets, photo and calendar jobs in; a folder of files out, whole or not at all."""

from generator.write.output import WriteReport, write_site
from generator.write.photos import PhotoCache

__all__ = ["PhotoCache", "WriteReport", "write_site"]
