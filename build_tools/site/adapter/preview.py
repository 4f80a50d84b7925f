"""One live preview (``mkdocs serve``): what it remembers from save to save, what it makes on demand, and what it answers in error."""

from __future__ import annotations

import traceback
from collections.abc import Callable
from pathlib import Path

import click
from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket
from mkdocs.commands import build
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer
from mkdocs.structure.files import Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import write_file

from ... import collector, pipeline
from ...movement.course import Courses
from ..book import Book, File, is_page
from ..live.demand import Demand
from ..live.stand_in import StandIn

#: The first two files of the search, and what stands for all of them.
_SEARCHED, _SEARCH = ("search/names.json", "search/texts.json"), "search/"
#: What is watched beside the catalog.
_LOOKS = [
    Path(__file__).parents[1] / folder
    for folder in ("templates", "styles", "scripts", "content", "theme")
]


class LivePreview:
    """From the command to its end; every save is a build of it."""

    def __init__(self) -> None:
        self.is_served = False
        """Whether the server is there, which the first build comes before."""
        self.stand_in = StandIn()
        self.memory = pipeline.Memory()
        self.courses: Courses | None = None
        """Of the state before."""
        self.waits = False
        """Whether pages are left out of the build at hand, to be made on demand."""
        self.failed: Exception | None = None
        """What ended the build at hand."""
        self.compiled = CompiledTemplates()
        """Of MkDocs and the theme, which begin each build anew."""
        self._demand = Demand()
        self._filled: set[str] = set()
        """Uris of the pages whose content was made on demand."""
        self._book: Book
        self._files: Files
        self._config: MkDocsConfig
        self._nav: Navigation
        self._env: Environment

    def begin(self, book: Book) -> None:
        """A build of ``book`` begins: its pages wait if the server can be asked to make them."""
        self._book, self.waits, self._filled = book, _is_live(), set()
        if self.waits:
            self.courses = book.shelf.courses

    def exclude(self, files: Files) -> None:
        """Have MkDocs write none of the files that wait."""
        for file in files:
            if file.is_documentation_page() or file.src_uri in self._book.resources:
                file.inclusion = InclusionLevel.EXCLUDED

    def wait(self, files: Files, config: MkDocsConfig, nav: Navigation, env: Environment) -> None:
        """The build is over, and its pages are made when they are asked for."""
        self._files, self._config, self._nav, self._env = files, config, nav, env
        self.waits = False
        wanted = {uri: uri for uri in self._book.resources if not is_page(uri)}
        wanted |= {f.dest_uri: f.src_uri for f in files if f.is_documentation_page()}
        self._demand.wait({**wanted, **dict.fromkeys(_SEARCHED, _SEARCH)}, self._fetch)

    def fill_above(self, pages: list[Page]) -> None:
        """Make the pages above one that is made on demand, whose titles it names."""
        for page in pages if self._filled else ():
            self._fill_in(page)

    def serve(self, server: LiveReloadServer, catalog: str) -> None:
        """Build anew when the catalog or the looks change, and answer while that fails."""
        for folder in [catalog, *_LOOKS]:
            server.watch(str(folder))
        collector.settle()
        self.is_served = True
        if application := server.get_app():  # what it answers with
            asked = self._demand.before(application, server.mount_path)
            server.set_app(self.stand_in.before(asked))
        server.builder = self._going_on(server.builder)

    def _fetch(self, uri: str) -> None:
        """Make one page or file, as a build would have."""
        file = self._files.get_file_from_path(uri)
        if file and file.page and file.is_documentation_page():
            self._fill_in(file.page)
            build._build_page(file.page, self._config, [], self._nav, self._env)
            return
        made = (
            self._book.search
            if uri == _SEARCH
            else [File(uri, self._book.resources[uri].content(self._book.shelf))]
        )
        for one in made:
            write_file(one.content, str(Path(self._config.site_dir) / one.uri))

    def _fill_in(self, page: Page) -> None:
        """Make the content of a page, once."""
        uri = page.file.src_uri
        if uri in self._filled:
            return
        self._filled.add(uri)
        if uri in self._book.resources:
            page.file.content_string = self._book.make(uri)
        elif page.file.generated_by is not None:  # lent by the engine
            page.file.content_string = self._book.fill(uri, self._book.written[uri])
        build._populate_page(page, self._config, self._files)

    def _going_on(self, remake: Callable[[], None]) -> Callable[[], None]:
        """``remake``, but what stops it is shown in the place of every page. MkDocs would keep browsers waiting for the next one."""

        def build_or_show() -> None:
            try:
                with self._demand.lock:
                    remake()
            except Exception as error:  # MkDocs' own end of a build among them
                found = self.stand_in.is_needed
                if not isinstance(error, SystemExit):
                    traceback.print_exc()
                if not found:
                    self.stand_in.tell(str(self.failed or error))
            else:
                self.stand_in.clear()
            finally:
                self.failed = None

        return build_or_show


class CompiledTemplates(BytecodeCache):
    """Templates by their text, so that those that did not change are not compiled anew."""

    def __init__(self) -> None:
        self._known: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take it from here, if it is there and of this text."""
        if bucket.key in self._known:
            bucket.bytecode_from_string(self._known[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep it."""
        self._known[bucket.key] = bucket.bytecode_to_string()


def _is_live() -> bool:
    """Whether the server can be asked to make pages: only one with live reload takes what plugins put before it."""
    command = click.get_current_context(silent=True)
    return bool(command and command.params.get("livereload"))
