"""Pages through their templates to bytes.

Templates get what their page's data names, and besides:

``page``     the page itself (path, title, description, kind)
``href(t)``  the link from this page to another path of the site; it always ends in a file's name
``photo(k)`` a photograph put out, by season and file (``2026/peas.jpg``), or none
``linked(p, b)``  what a page is about, for programs; with its photographs where ``b`` is the site's address
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from jinja2 import BaseLoader, ChoiceLoader, PrefixLoader, StrictUndefined, TemplateNotFound
from jinja2.environment import Environment
from jinja2.exceptions import TemplateError, TemplateSyntaxError
from jinja2.sandbox import SandboxedEnvironment
from markupsafe import Markup

from tallybed.garden.findings import Finding, Place
from tallybed.pages.frame.linked import script
from tallybed.pages.frame.page import Page
from tallybed.pictures.photos import Picture
from tallybed.publishing.assets import Layouts, Template, shipped_folder
from tallybed.publishing.compiled import Compiled, CompiledBeside
from tallybed.publishing.paths import checked, from_top, relative

_COMPILED = CompiledBeside(shipped_folder())
_COMPILED_IN_SANDBOX = Compiled()
"""In the sandbox a template compiles to something else, and a garden's own are never kept on the disk."""


class TemplateMistakeError(Exception):
    """A mistake in a garden's own template, as a finding."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.found)
        self.finding = finding


class Rendering:
    """Templates made ready for one build. Not for several threads at once."""

    def __init__(self, layouts: Layouts, pictures: Mapping[str, Picture] | None = None) -> None:
        self._layouts = layouts
        self._pictures = dict(pictures or {})
        self._here = self._top = ""
        # Ours are found under tallybed/ as well, so that an own one can extend what it replaces.
        shipped = PrefixLoader({"tallybed": _Texts(layouts.shipped)})
        self._environment = self._made(ChoiceLoader([_Texts(layouts.templates), shipped]))

    def page(self, page: Page) -> bytes:
        """Return the page in UTF-8, each line ended by a line feed alone.

        Raises TemplateMistakeError where a garden's own template is at fault, and the
        template's own error where one of ours is.
        """
        try:
            return self._written(self._environment, page)
        except Exception as error:
            place = self._own_place(error)
            if place is None and self._whole_without_own(page):
                place = Place("layouts")
            if place is None:
                raise
            raise TemplateMistakeError(_mistake(place, page, error)) from error

    def _written(self, environment: Environment, page: Page) -> bytes:
        """Return a page in UTF-8, each line ended by a line feed alone, through these templates."""
        self._here, self._top = checked(page.path), page.top
        text = environment.get_template(page.template).render({**page.data, "page": page})
        lines = text.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n")
        return f"{lines}\n".encode()

    def _href(self, target: str) -> str:
        """Return the link to a path of the site from the page that is being written."""
        return from_top(self._top, target) if self._top else relative(self._here, target)

    def _made(self, loader: BaseLoader) -> Environment:
        """Return an environment of templates that escapes and allows no unknown name.

        It runs in a sandbox where the garden has templates of its own; Tallybed's alone need none.
        """
        own = any(template.own for template in self._layouts.templates.values())
        environment = (SandboxedEnvironment if own else Environment)(
            loader=loader,
            autoescape=True,
            undefined=StrictUndefined,
            bytecode_cache=_COMPILED_IN_SANDBOX if own else _COMPILED,
            trim_blocks=True,
            lstrip_blocks=True,
            cache_size=-1,
            auto_reload=False,
        )
        environment.globals.update(href=self._href, photo=self._pictures.get, linked=self._linked)
        return environment

    def _linked(self, page: Page, base: str) -> Markup:
        """Return a page's linked data; its photographs are told only with the site's address, ``base``."""

        def address_of(name: str) -> str | None:
            picture = self._pictures.get(name)
            return f"{base}{picture.path}" if base and picture else None

        return script(page.linked, address_of)

    def _own_place(self, error: Exception) -> Place | None:
        """Return the innermost place of a garden's own template that the error came through."""
        own = {template.file for template in self._layouts.templates.values() if template.own}
        if isinstance(error, TemplateSyntaxError) and error.filename in own:
            return Place(error.filename or "", error.lineno)
        place = None
        step = error.__traceback__
        while step is not None:
            if step.tb_frame.f_code.co_filename in own:
                place = Place(step.tb_frame.f_code.co_filename, step.tb_lineno)
            step = step.tb_next
        return place

    def _whole_without_own(self, page: Page) -> bool:
        """Return whether the page comes out well with Tallybed's own templates alone."""
        if not any(template.own for template in self._layouts.templates.values()):
            return False
        try:
            self._written(self._made(_Texts(self._layouts.shipped)), page)
        except Exception:
            return False
        return True


def render(
    pages: Iterable[Page], rendering: Rendering, tell: Callable[[Finding], None]
) -> Iterator[tuple[str, bytes]]:
    """Yield path and bytes of each page that comes out; tell what a garden's own templates get wrong."""
    for page in pages:
        try:
            yield page.path, rendering.page(page)
        except TemplateMistakeError as mistake:
            tell(mistake.finding)


class _Texts(BaseLoader):
    """Templates from memory that know the name a message calls them by."""

    def __init__(self, templates: Mapping[str, Template]) -> None:
        self._templates = templates

    def get_source(
        self, environment: Environment, template: str
    ) -> tuple[str, str | None, Callable[[], bool] | None]:
        """Return text and name. Raises TemplateNotFound."""
        del environment
        if template not in self._templates:
            raise TemplateNotFound(template)
        found = self._templates[template]
        return found.text, found.file, lambda: True


def _mistake(place: Place, page: Page, error: Exception) -> Finding:
    """Return what a template got wrong with a page, as a finding."""
    if isinstance(error, TemplateNotFound):
        said = f"there is no template named {error}"
    elif isinstance(error, TemplateError):
        said = " ".join(str(error.message or "").split())
    elif isinstance(error, RecursionError):
        said = "the template calls itself without end"
    else:
        said = f"{type(error).__name__}: {' '.join(str(error).split())}"
    return Finding(
        place=place,
        code="template-mistake",
        found=f"the page {page.path} cannot be made: {said}",
        remedy="correct the template, or take it away to use Tallybed's own",
    )
