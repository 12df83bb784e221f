"""From a compiled plan to sheets on paper and on phones.

`build(compiled, out_dir, only=(), day=None, person=None, label="", pdf=True)` makes all sheets, or those asked for,
and writes them all or not at all:

- `only` holds names of `DOCUMENTS` (or "index"), `day` the id of a day, `person` the id of somebody: their own sheets
  and those that are for everybody. Sheets not asked for stay in the folder as they are.
- It gives a `BuildResult`: the names of the files written, unchanged and removed, and remarks for standard error.
- `NothingToBuild` (a day, person or document that is not there, a plan that cannot be read) and `CannotWrite` (the
  folder) each carry one sentence; nothing has been written then. So does `BrokenSheet`, for a fault of hotset in one
  sheet: it names the sheet and how to have all others. Findings do not stop a build: they stand at the lines they are
  about, and the command's exit status is for whoever calls to decide.
"""

from .build import DOCUMENTS, BrokenSheet, BuildResult, NothingToBuild, build
from .writer import CannotWrite

__all__ = ["DOCUMENTS", "BrokenSheet", "BuildResult", "CannotWrite", "NothingToBuild", "build"]
