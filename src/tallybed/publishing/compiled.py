"""What templates were compiled to, kept from one build to the next as Python keeps its modules."""

from __future__ import annotations

import sys
from contextlib import suppress
from pathlib import Path
from types import CodeType

import jinja2
from jinja2 import BytecodeCache, Environment, FileSystemBytecodeCache
from jinja2.bccache import Bucket


class Compiled(BytecodeCache):
    """Each template as it was last compiled, by its name; used again only for the same text."""

    def __init__(self) -> None:
        self._found: dict[str, tuple[str, CodeType]] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give a template what its text was compiled to before, if it was."""
        checksum, code = self._found.get(bucket.key, ("", None))
        if checksum == bucket.checksum:
            bucket.code = code

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what a template was compiled to, in place of what its name stood for before."""
        if bucket.code is not None:
            self._found[bucket.key] = (bucket.checksum, bucket.code)


class CompiledBeside(FileSystemBytecodeCache):
    """The same of templates that come with Tallybed, in ``__pycache__`` of their own folder.

    What lies there is run as it is, so it must be a folder that only who installs Tallybed writes to:
    never one of a garden's. Nothing is kept where it cannot be written, or where Python keeps nothing.
    """

    def __init__(self, templates: Path) -> None:
        """Take the folder of the templates."""
        super().__init__(str(templates / "__pycache__"), f"%s.{sys.implementation.cache_tag}.jinja")
        self._seen = Compiled()

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give a template what its text was compiled to before, if it was."""
        self._seen.load_bytecode(bucket)
        if bucket.code is None:
            with suppress(Exception):  # whatever is damaged there, the template is compiled anew
                super().load_bytecode(bucket)
            self._seen.dump_bytecode(bucket)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what a template was compiled to."""
        self._seen.dump_bytecode(bucket)
        if not sys.dont_write_bytecode:
            with suppress(OSError):
                Path(self.directory).mkdir(exist_ok=True)
                super().dump_bytecode(bucket)

    def get_bucket(self, environment: Environment, name: str, filename: str | None, source: str) -> Bucket:
        """Return what a text was compiled to by the same Jinja, told the same of how texts are written."""
        told = (
            jinja2.__version__,
            environment.trim_blocks,
            environment.lstrip_blocks,
            environment.autoescape,
        )
        return super().get_bucket(environment, name, filename, f"{told!r}\n{source}")
