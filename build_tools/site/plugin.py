"""The MkDocs adapter: checks the catalog, then hands the rendered pages to the build as virtual files.

Everything happens before MkDocs cleans the output folder, so a catalog that
fails leaves the site that stood before. Nothing is written into the docs folder.
A preview goes on while the catalog is in error, and shows what to mend.
"""

from __future__ import annotations

import html
import logging
import os
import posixpath
import traceback
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit

import click
from jinja2 import Environment
from mkdocs.commands import build
from mkdocs.config import config_options as c
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import get_toc
from mkdocs.utils import get_relative_url, write_file
from mkdocs.utils.templates import TemplateContext

from .. import pipeline
from ..catalog.invocation import typed
from ..checks import runner
from ..committed import addresses as address_list
from ..committed import files as committed
from ..committed import record
from ..movement.course import Courses
from . import book, frame, hand_written, looks
from .addresses import above
from .hosting import port
from .hosting.headers import HEADERS, headers, stated
from .hosting.place import SitePlace, UnwritableSite, WarningsCame, told
from .hosting.policy import Policies
from .live.demand import Demand
from .live.stand_in import StandIn
from .pages.passages import UnfitPage
from .publication import Publication
from .ready import HeadingConverter, Sheets, squeezed

log = get_plugin_logger("handbook")
#: Megabytes that no page asks for: the theme's own search, and what only its makers read.
_THEME_SEARCH = ("assets/javascripts/lunr/", "assets/javascripts/workers/")
#: The first two files of the search, and what stands for all of them in a preview.
_SEARCHED, _SEARCH = ("search/names.json", "search/texts.json"), "search/"
_THEME_MAPS = (".min.js.map", ".min.css.map")
_THEME_FAVICON = "assets/images/favicon.png"
#: What a live preview watches beside the catalog.
_LOOKS = [
    Path(__file__).parent / folder
    for folder in ("templates", "styles", "scripts", "content", "theme")
]


class HandbookConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs has no types
    """What ``mkdocs.yml`` may say under ``handbook:``."""

    enabled = c.Type(bool, default=True)
    catalog = c.Dir(exists=True, default="catalog")
    """The catalog folder, relative to mkdocs.yml."""
    strict = c.Type(bool, default=False)
    """Whether warnings of the catalog's checks stop the build, as ``--strict`` makes them."""
    offline = c.Type(bool, default=True)
    """Whether readers' devices keep cue sheets and handouts for use without a network."""


class HandbookPlugin(BasePlugin[HandbookConfig]):  # type: ignore[no-untyped-call]
    """Loads, checks, concludes and renders the catalog at each build."""

    _book: book.Book
    _courses: Courses | None = None
    """Of the state before, in a preview."""
    _files: Files
    _door: Page | None = None
    """The page of the navigation that an entry stands under, while the entry is written."""
    _converter: HeadingConverter
    _sheets: Sheets
    _previews = False
    _is_served = False
    """Whether a preview's server is there, which the first build comes before."""
    _stand_in = StandIn()
    _failed: Exception | None = None
    """What ended the build at hand."""
    _memory = pipeline.Memory()
    _demand = Demand()
    """What a preview's readers may still ask for."""
    _waits = False
    """Whether pages are left out of the build at hand, to be made on demand."""
    _filled: set[str]
    """Uris of the pages whose content was made on demand."""
    _config: MkDocsConfig
    _nav: Navigation
    _env: Environment
    _place: SitePlace | None = None
    """Where the new site is made before it stands, unless the folder is a preview's or is added to."""
    _adds = False
    """Whether the build only adds to the folder (``--dirty``)."""
    _settings: MkDocsConfig
    _standing: str
    """Where the site stands, as the settings say; they say otherwise while it is made."""
    _warnings = WarningsCame()
    _policies: Policies | None = None
    """What browsers may do on each page, once the templates are there."""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """A preview must show what was just saved, so nothing is kept on the device from it."""
        self._previews, self._is_served, self._stand_in = command == "serve", False, StandIn()
        self._memory, self._demand = pipeline.Memory(), Demand()
        self._adds = dirty

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Set what the pages need, so that nobody has to know it; what a handbook says of its own is kept where it does no harm."""
        if not self.config.enabled:
            return config
        self._leave()  # an earlier build of this process that nobody ended
        self._warnings = WarningsCame()
        logging.getLogger("mkdocs").addHandler(self._warnings)
        if not config.use_directory_urls:
            raise PluginError("the handbook's addresses need `use_directory_urls: true`")
        if config.theme.name == frame.THEME:
            # After a handbook's own templates, before the theme's.
            config.theme.dirs.insert(bool(config.theme.custom_dir), str(frame.TEMPLATES))
            for key, value in frame.theme(config.theme["features"]).items():
                config.theme[key] = value
            for key in ("logo", "favicon"):
                if config.theme.get(key) in (None, _THEME_FAVICON):
                    config.theme[key] = looks.MARK
        for name, settings in frame.EXTENSIONS.items():
            if name not in config.markdown_extensions:
                config.markdown_extensions.append(name)
            config.mdx_configs[name] = {**settings, **config.mdx_configs.get(name, {})}
        config.extra_css[:0] = frame.styles()
        config.extra.setdefault("generator", False)
        config.validation.nav.omitted_files = logging.DEBUG  # entries stand behind their lists
        for kind in ("anchors", "absolute_links", "unrecognized_links"):
            setattr(config.validation.links, kind, logging.WARNING)
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Render the whole handbook in memory, or stop before anything is cleaned or written."""
        if not self.config.enabled:
            return
        if self._previews and not self._is_served:
            # Else MkDocs finds it out after the first build.
            if taken := port.refused(config.dev_addr.host, config.dev_addr.port):
                raise PluginError(taken)
        self._take(config)
        if not self._previews:
            self._memory = pipeline.Memory()  # a build stands for itself
        root = Path(self.config.catalog)
        strict = bool(config.strict or self.config.strict)
        written = self._written(config)
        catalog, profile, by_rules, by_numbers, conclusions = pipeline.run(
            pipeline.open_catalog(root, _shown(root), self._memory), self._memory
        )
        # Only a warning: whoever edits with a preview open sees the page, and writes conclusions and addresses last.
        site = Publication(config.site_url or None, self.config.offline and not self._previews)
        behind = committed.stale_at_all(conclusions, catalog)
        if conclusions:
            try:
                self._book = book.bind(catalog, conclusions, profile, site, written, self._courses)
            except UnfitPage as error:
                raise PluginError(str(error)) from error
            behind += address_list.stale(catalog, self._book.answers)
        behind += record.find(catalog)
        warnings = [runner.GradedFinding(finding, "warning") for finding in behind]
        if not self._pass([*by_rules, *by_numbers, *warnings], config, strict):
            return
        assert conclusions is not None  # else an error of the rules has stopped the build
        if not config.site_url:
            log.info(
                "no `site_url`: client links get no QR code and no canonical address (set SITE_URL to where it is published)"
            )
        self._converter = HeadingConverter(config.markdown_extensions, config.mdx_configs)
        styles = {uri: self._book.resources[uri] for uri in looks.STYLES.values()}
        self._sheets = Sheets(
            {uri: made.content(self._book.shelf).decode() for uri, made in styles.items()}
        )
        self._waits, self._filled = self._previews and _is_live(), set()
        if self._waits:
            self._courses = self._book.shelf.courses
        else:
            try:
                self._book.make_all()
            except UnfitPage as error:
                raise PluginError(str(error)) from error
        self._demand_settings(config, strict)
        config.site_description = config.site_description or self._book.shelf.handbook.tagline
        for name in frame.PRINTED:  # as they stand, by the theme
            setattr(config, name, html.escape(config[name]) if config[name] else None)
        if config.nav is None:
            config.nav = frame.doors(self._book.resources, written)
        if self._place:
            config.site_dir = str(self._place.new)

    def _take(self, config: MkDocsConfig) -> None:
        """Nobody else builds this site until this build ends. Raises ``PluginError``."""
        self._leave_place()
        if self._previews or self._adds:
            return
        place = SitePlace(Path(config.site_dir))
        try:
            self._place = place if place.take() else None
        except UnwritableSite as error:
            raise PluginError(f"{error}; {_kept(Path(config.site_dir))}") from error
        self._settings, self._standing = config, config.site_dir

    def _leave(self) -> None:
        """The end of a build, however it came."""
        logging.getLogger("mkdocs").removeHandler(self._warnings)
        self._leave_place()

    def _leave_place(self) -> None:
        if self._place:
            self._settings.site_dir = self._standing
            self._place.leave()
            self._place = None

    def _written(self, config: MkDocsConfig) -> dict[str, str]:
        if wrong := hand_written.links(Path(config.docs_dir), _shown(Path(config.docs_dir))):
            raise PluginError(f"{wrong}; {_kept(Path(config.site_dir))}")
        try:
            return hand_written.pages(Path(config.docs_dir))
        except (OSError, UnicodeDecodeError) as error:
            raise PluginError(f"a page of the content folder cannot be read: {error}") from error

    def _demand_settings(self, config: MkDocsConfig, strict: bool) -> None:
        """Tell what a handbook must set right itself; stop when strict."""
        shelf, settings = self._book.shelf, _shown(Path(config.config_file_path or "mkdocs.yml"))
        found = hand_written.demands(shelf, self._book.written, _shown(Path(config.docs_dir)))
        if config.theme.name != frame.THEME:
            found.append(
                f"{settings}: the pages are made for another theme; write `theme: {frame.THEME}`"
            )
        if config.site_name != shelf.handbook.title:
            found.append(
                f"{settings}: `site_name` is `{config.site_name}`, and the title in handbook.yaml is `{shelf.handbook.title}`; "
                "write the same in both"
            )
        found += [
            f"{settings}: take the plugin `{name}` out: {why}"
            for name, why in frame.INSTEAD.items()
            if {name, f"{frame.THEME}/{name}"} & config.plugins.keys()
        ]
        for one in found:
            (log.error if strict else log.warning)(one)
        if found and strict:
            raise PluginError(
                f"the handbook's own settings or pages need {len(found)} changes; {_kept(Path(config.site_dir))}"
                if len(found) > 1
                else f"the handbook's own settings or pages need a change; {_kept(Path(config.site_dir))}"
            )

    def _pass(self, found: list[runner.GradedFinding], config: MkDocsConfig, strict: bool) -> bool:
        """Whether the pages are to be made; one line per finding. Raises ``PluginError`` on errors, and on warnings when strict.

        Only the first build of a preview goes on without pages: MkDocs would end with it, and nothing would wait for the mend.
        """
        counts = {"error": 0, "warning": 0, "notice": 0}
        # A notice only speaks, and so does all that a preview begins with: under strict MkDocs counts the others, and ends.
        goes_on = self._previews and not self._is_served
        say_as = {
            "error": log.info if goes_on and strict else log.error,
            "warning": log.info if goes_on and strict else log.warning,
            "notice": log.info,
        }
        catalog = _shown(Path(self.config.catalog))
        for finding, severity in found:
            counts[severity] += 1
            spot = finding.spot
            say_as[severity](
                f"{spot.file}:{spot.line}:{spot.column}: {severity}[{finding.rule}]: {finding.message}; help: {typed(finding.help, catalog)}"
            )
        if not counts["error"] and not (strict and counts["warning"]):
            self._stand_in.clear()
            return True
        refused = f"the catalog did not pass its checks ({counts['error']} errors, {counts['warning']} warnings)"
        if not self._previews:
            raise PluginError(f"{refused}; {_kept(Path(config.site_dir))}")
        self._stand_in.show(found, catalog)
        refused += "; the preview shows what to mend until it is mended"
        if not goes_on:
            raise PluginError(refused)
        log.info(refused)
        config.nav = []
        return False

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages and files as virtual files, editable at their YAML."""
        if not self.config.enabled:
            return files
        if self._stand_in.is_needed:
            return Files([])
        for file in list(files):
            if file.src_uri.startswith(_THEME_SEARCH) or file.src_uri.endswith(_THEME_MAPS):
                files.remove(file)
        try:
            to_catalog = Path(os.path.relpath(self.config.catalog, config.docs_dir)).as_posix()
        except ValueError:  # another drive on Windows: no link leads there
            to_catalog = ""
        for uri, text in self._book.written.items():
            if files.get_file_from_path(uri) is None:
                self._add(files, config, uri, "" if self._waits else self._book.fill(uri, text))
        texts = {} if self._waits else {page.uri: page.text for page in self._book.pages}
        for uri, resource in self._book.resources.items():
            if book.is_page(uri):
                file = self._add(files, config, uri, texts.get(uri, ""))
                edit = resource.edit
                file.edit_uri = posixpath.join(to_catalog, edit) if edit and to_catalog else None
        if self._waits:
            for uri in self._book.resources:
                if uri.endswith("/index.html"):  # what the navigation may lead to
                    self._add(files, config, uri, b"")
            return files
        for asset in self._book.files:
            self._add(files, config, asset.uri, asset.content)
        return files

    def _add(self, files: Files, config: MkDocsConfig, uri: str, content: str | bytes) -> File:
        if files.get_file_from_path(uri) is not None:
            raise PluginError(
                f"{uri} stands in the content folder, and the handbook makes a page of that name; rename one"
            )
        file = File.generated(config, uri, content=content)
        files.append(file)
        return file

    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> str:
        """Complete hand-written pages with their generated passages."""
        if not self.config.enabled:
            return markdown
        if self._waits:
            page.render = partial(_leave_out, page)  # type: ignore[method-assign]
            return markdown
        page.__dict__.pop("render", None)
        if page.file.src_uri in self._book.resources:
            page.render = partial(self._render, page)  # type: ignore[method-assign]
        if page.file.generated_by is not None:
            return markdown
        try:
            return self._book.fill(page.file.src_uri, markdown)
        except UnfitPage as error:
            raise PluginError(str(error)) from error

    def _render(self, page: Page, config: MkDocsConfig, files: Files) -> None:
        """What MkDocs does to a page's Markdown, for one that is HTML already."""
        assert page.markdown is not None
        ready = self._converter.convert(page.markdown)
        page.content, page.present_anchor_ids = ready.html, set(ready.anchors)
        page.toc = get_toc(list(ready.toc))  # type: ignore[arg-type]

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Keep the pages, so that an entry finds those above it."""
        self._files, self._nav, self._config = files, nav, config
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Every page says its policy, and one file says all of them to hosts that read it. A preview's pages are not written yet."""
        self._env = env
        if not self.config.enabled or config.theme.name != frame.THEME:
            return env
        self._policies = Policies(partial(frame.inline, env, config))
        # A preview's own script stands in each page that it sends, and no hash of it is known.
        env.globals["handbook_policy"] = None if self._previews else self._policies.at
        if self._waits:
            for file in files:
                if file.is_documentation_page() or file.src_uri in self._book.resources:
                    file.inclusion = InclusionLevel.EXCLUDED
        elif not self._stand_in.is_needed and files.get_file_from_path(HEADERS) is None:
            bases = {get_relative_url(".", file.url) for file in files.documentation_pages()}
            bases.add(urlsplit(config.site_url or "/").path)  # of the page for what is not there
            text = headers([*map(self._policies.at, sorted(bases)), *stated(self._book.files)])
            self._add(files, config, HEADERS, text)
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Give the theme the notice and licence, the preview and the pages above, and mark the door that an entry stands behind."""
        if not self.config.enabled:
            return context
        context["handbook"] = self._book.shelf.handbook  # type: ignore[typeddict-unknown-key]
        context["steps"] = frame.STEPS  # type: ignore[typeddict-unknown-key]
        if not self._previews:
            context["preview"] = self._book.previews.get(page.file.src_uri)  # type: ignore[typeddict-unknown-key]
        found = [self._files.get_file_from_path(uri) for uri in above(page.file.src_uri)]
        way = [file.page for file in found if file and file.page]
        for page_above in way if self._filled else ():
            self._fill_in(page_above)
        context["above"] = way  # type: ignore[typeddict-unknown-key]
        self._door = way[0] if way and page not in nav.pages else None
        if self._door:
            self._door.active = True
        return context

    @event_priority(-100)  # what others add to the site comes before
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Put the new site in its place. Without pages, leave what to mend for a server that makes nothing anew."""
        if self._stand_in.is_needed:
            self._stand_in.write(Path(config.site_dir))
        if self._waits:
            self._waits = False
            wanted = {uri: uri for uri in self._book.resources if not book.is_page(uri)}
            wanted |= {f.dest_uri: f.src_uri for f in self._files if f.is_documentation_page()}
            self._demand.wait({**wanted, **dict.fromkeys(_SEARCHED, _SEARCH)}, self._fetch)
        if self._place and config.strict and self._warnings.any:
            log.info(_kept(self._place.site))
        elif self._place:
            self._place.put()
        self._leave()

    def _fetch(self, uri: str) -> None:
        """Make one page or file of a preview, as a build would have."""
        file = self._files.get_file_from_path(uri)
        if file and file.page and file.is_documentation_page():
            self._fill_in(file.page)
            build._build_page(file.page, self._config, [], self._nav, self._env)
            return
        made = (
            self._book.search
            if uri == _SEARCH
            else [book.File(uri, self._book.resources[uri].content(self._book.shelf))]
        )
        for one in made:
            write_file(one.content, str(Path(self._config.site_dir) / one.uri))

    def _fill_in(self, page: Page) -> None:
        """Make the content of a preview's page, once."""
        uri = page.file.src_uri
        if uri in self._filled:
            return
        self._filled.add(uri)
        if uri in self._book.resources:
            page.file.content_string = self._book.make(uri)
        elif page.file.generated_by is not None:  # lent by the engine
            page.file.content_string = self._book.fill(uri, self._book.written[uri])
        build._populate_page(page, self._config, self._files)

    @event_priority(-100)
    def on_build_error(self, *, error: Exception) -> None:
        """Keep what went wrong: MkDocs itself only says that something did. What a disk refused is told in words."""
        self._failed = error
        place = self._place
        self._leave()
        if place and isinstance(error, OSError) and place.is_to_blame(error):
            log.error(f"{told(error)}; {_kept(place.site)}")
            raise Abort("The site was not built") from error

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Take the mark away again: the navigation is shared by all pages. Leave out the templates' own blanks."""
        if self._door:
            self._door.active, self._door = False, None
        if self._policies and page.file.generated_by is None:
            host = urlsplit(config.site_url or "").netloc
            for one in self._policies.refused(output, get_relative_url(".", page.url), host):
                log.warning(
                    f"{page.file.src_uri}: browsers are told to refuse {one}; put it into a file of the content folder, "
                    "named in `extra_css` or `extra_javascript` if it is a style or a script"
                )
        return self._sheets.lean(squeezed(output)) if self.config.enabled else output

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        """Rebuild the preview when the catalog or the looks change, and answer while that fails."""
        if self.config.enabled:
            for folder in [self.config.catalog, *_LOOKS]:
                server.watch(str(folder))
            self._is_served = True
            if application := server.get_app():  # what it answers with
                asked = self._demand.before(application, server.mount_path)
                server.set_app(self._stand_in.before(asked))
            server.builder = self._going_on(server.builder)
        return server

    def _going_on(self, remake: Callable[[], None]) -> Callable[[], None]:
        """``remake``, but what stops it is shown in the place of every page. MkDocs would keep browsers waiting for the next one."""

        def build_or_show() -> None:
            try:
                with self._demand.lock:
                    remake()
            except Exception as error:  # MkDocs' own end of a build among them
                found = self._stand_in.is_needed
                if not isinstance(error, SystemExit):
                    traceback.print_exc()
                if not found:
                    self._stand_in.tell(str(self._failed or error))
            else:
                self._stand_in.clear()
            finally:
                self._failed = None

        return build_or_show


def _is_live() -> bool:
    """Whether the preview's server can be asked to make pages: only one with live reload takes what plugins put before it."""
    command = click.get_current_context(silent=True)
    return bool(command and command.params.get("livereload"))


def _leave_out(page: Page, config: MkDocsConfig, files: Files) -> None:
    """In place of rendering, for a page that is made on demand."""
    page.content, page.toc = "", get_toc([])


def _shown(root: Path) -> str:
    """The catalog's path as people see it from where they stand."""
    try:
        return root.relative_to(Path.cwd()).as_posix()
    except ValueError:
        return root.as_posix()


def _kept(folder: Path) -> str:
    """What became of the site, as long as nothing cleaned its folder."""
    stands = folder.is_dir() and any(folder.iterdir())
    return f"the site in {_shown(folder)} stays as it was" if stands else "nothing was written"
