"""The MkDocs adapter: checks the catalog, then hands the rendered pages to the build as virtual files.

Everything happens before MkDocs cleans the output folder, so a catalog that
fails leaves the site that stood before. Nothing is written into the docs folder.
A preview goes on while the catalog is in error, and shows what to mend.
"""

from __future__ import annotations

import logging
from functools import partial
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url
from mkdocs.utils.templates import TemplateContext

from ... import collector, pipeline
from ...catalog.invocation import typed
from ...checks import runner
from ...committed import addresses as address_list
from ...committed import files as committed
from ...committed import record
from .. import book, frame, looks
from ..addresses import above
from ..hosting import port
from ..hosting.headers import HEADERS, headers, stated
from ..hosting.place import SitePlace, UnwritableSite, WarningsCame, told
from ..hosting.policy import Policies
from ..pages.passages import UnfitPage
from ..publication import Publication
from ..ready import HeadingConverter, Sheets, squeezed
from . import settings, virtual_files
from .preview import LivePreview
from .settings import HandbookConfig, kept, shown

log = get_plugin_logger("handbook")


class HandbookPlugin(BasePlugin[HandbookConfig]):  # type: ignore[no-untyped-call]
    """Loads, checks, concludes and renders the catalog at each build."""

    _book: book.Book
    _preview: LivePreview | None = None
    """What this build is one of, unless it is for itself."""
    _files: Files
    _nav: Navigation
    _env: Environment
    _door: Page | None = None
    """The page of the navigation that an entry stands under, while the entry is written."""
    _converter: HeadingConverter
    _sheets: Sheets
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
        collector.spare()
        self._preview = LivePreview() if command == "serve" else None
        self._adds = dirty

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Set what the pages need, so that nobody has to know it; what a handbook says of its own is kept where it does no harm."""
        if not self.config.enabled:
            return config
        self._leave()  # an earlier build of this process that nobody ended
        self._warnings = WarningsCame()
        logging.getLogger("mkdocs").addHandler(self._warnings)
        settings.complete(config)
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Render the whole handbook in memory, or stop before anything is cleaned or written."""
        if not self.config.enabled:
            return
        preview = self._preview
        if preview and not preview.is_served:
            # Else MkDocs finds it out after the first build.
            if taken := port.refused(config.dev_addr.host, config.dev_addr.port):
                raise PluginError(taken)
        self._take(config)
        memory = preview.memory if preview else pipeline.Memory()  # a build stands for itself
        root = Path(self.config.catalog)
        strict = bool(config.strict or self.config.strict)
        written = settings.read_content(config)
        catalog, profile, by_rules, by_numbers, conclusions = pipeline.run(
            pipeline.open_catalog(root, shown(root), memory), memory
        )
        site = Publication(config.site_url or None, self.config.offline and not preview)
        # Only a warning: whoever edits with a preview open sees the page, and writes conclusions and addresses last.
        behind = committed.stale_at_all(conclusions, catalog)
        if conclusions:
            try:
                courses = preview.courses if preview else None
                self._book = book.bind(catalog, conclusions, profile, site, written, courses)
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
        if preview:
            preview.begin(self._book)
        if not self._waits:
            try:
                self._book.make_all()
            except UnfitPage as error:
                raise PluginError(str(error)) from error
        self._demand_settings(config, strict)
        settings.complete_from(config, self._book)
        if self._place:
            config.site_dir = str(self._place.new)

    @property
    def _waits(self) -> bool:
        """Whether pages are left out of the build at hand, to be made on demand."""
        return bool(self._preview and self._preview.waits)

    def _take(self, config: MkDocsConfig) -> None:
        """Nobody else builds this site until this build ends. Raises ``PluginError``."""
        self._leave_place()
        if self._preview or self._adds:
            return
        place = SitePlace(Path(config.site_dir))
        try:
            self._place = place if place.take() else None
        except UnwritableSite as error:
            raise PluginError(f"{error}; {kept(Path(config.site_dir))}") from error
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

    def _demand_settings(self, config: MkDocsConfig, strict: bool) -> None:
        """Tell what a handbook must set right itself; stop when strict."""
        found = settings.demanded(config, self._book)
        for one in found:
            (log.error if strict else log.warning)(one)
        if found and strict:
            raise PluginError(
                f"the handbook's own settings or pages need {len(found)} changes; {kept(Path(config.site_dir))}"
                if len(found) > 1
                else f"the handbook's own settings or pages need a change; {kept(Path(config.site_dir))}"
            )

    def _pass(self, found: list[runner.GradedFinding], config: MkDocsConfig, strict: bool) -> bool:
        """Whether the pages are to be made; one line per finding. Raises ``PluginError`` on errors, and on warnings when strict.

        Only the first build of a preview goes on without pages: MkDocs would end with it, and nothing would wait for the mend.
        """
        counts = {"error": 0, "warning": 0, "notice": 0}
        # A notice only speaks, and so does all that a preview begins with: under strict MkDocs counts the others, and ends.
        preview = self._preview
        goes_on = bool(preview and not preview.is_served)
        say_as = {
            "error": log.info if goes_on and strict else log.error,
            "warning": log.info if goes_on and strict else log.warning,
            "notice": log.info,
        }
        catalog = shown(Path(self.config.catalog))
        for finding, severity in found:
            counts[severity] += 1
            spot = finding.spot
            say_as[severity](
                f"{spot.file}:{spot.line}:{spot.column}: {severity}[{finding.rule}]: {finding.message}; help: {typed(finding.help, catalog)}"
            )
        if not counts["error"] and not (strict and counts["warning"]):
            if preview:
                preview.stand_in.clear()
            return True
        refused = f"the catalog did not pass its checks ({counts['error']} errors, {counts['warning']} warnings)"
        if not preview:
            raise PluginError(f"{refused}; {kept(Path(config.site_dir))}")
        preview.stand_in.show(found, catalog)
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
        if self._is_in_error:
            return Files([])
        virtual_files.drop_theme_files(files)
        virtual_files.declare(files, config, self._book, self.config.catalog, self._waits)
        return files

    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> str:
        """Complete hand-written pages with their generated passages."""
        if not self.config.enabled:
            return markdown
        if self._waits:
            virtual_files.leave_out(page)
            return markdown
        if page.file.src_uri in self._book.resources:
            virtual_files.render_ready(page, self._converter)
        else:
            virtual_files.render_written(page)
        if page.file.generated_by is not None:
            return markdown
        try:
            return self._book.fill(page.file.src_uri, markdown)
        except UnfitPage as error:
            raise PluginError(str(error)) from error

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Keep the pages, so that an entry finds those above it."""
        self._files, self._nav = files, nav
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Every page says its policy, and one file says all of them to hosts that read it. A preview's pages are not written yet."""
        self._env = env
        if self._preview:
            env.bytecode_cache = self._preview.compiled
        if not self.config.enabled or config.theme.name != frame.THEME:
            return env
        self._policies = Policies(partial(frame.inline, env, config))
        # A preview's own script stands in each page that it sends, and no hash of it is known.
        env.globals["handbook_policy"] = None if self._preview else self._policies.at
        if self._preview and self._waits:
            self._preview.exclude(files)
        elif not self._is_in_error and files.get_file_from_path(HEADERS) is None:
            bases = {get_relative_url(".", file.url) for file in files.documentation_pages()}
            bases.add(urlsplit(config.site_url or "/").path)  # of the page for what is not there
            text = headers([*map(self._policies.at, sorted(bases)), *stated(self._book.files)])
            virtual_files.add(files, config, HEADERS, text)
        return env

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Give the theme the notice and licence, the preview and the pages above, and mark the door that an entry stands behind."""
        if not self.config.enabled:
            return context
        context["handbook"] = self._book.shelf.handbook  # type: ignore[typeddict-unknown-key]
        context["steps"] = frame.STEPS  # type: ignore[typeddict-unknown-key]
        if not self._preview:
            context["preview"] = self._book.previews.get(page.file.src_uri)  # type: ignore[typeddict-unknown-key]
        found = [self._files.get_file_from_path(uri) for uri in above(page.file.src_uri)]
        way = [file.page for file in found if file and file.page]
        if self._preview:
            self._preview.fill_above(way)
        context["above"] = way  # type: ignore[typeddict-unknown-key]
        self._door = way[0] if way and page not in nav.pages else None
        if self._door:
            self._door.active = True
        return context

    @event_priority(-100)  # what others add to the site comes before
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Put the new site in its place. Without pages, leave what to mend for a server that makes nothing anew."""
        if preview := self._preview:
            if preview.stand_in.is_needed:
                preview.stand_in.write(Path(config.site_dir))
            if preview.waits:
                preview.wait(self._files, config, self._nav, self._env)
        if self._place and config.strict and self._warnings.any:
            log.info(kept(self._place.site))
        elif self._place:
            self._place.put()
        self._leave()

    @event_priority(-100)
    def on_build_error(self, *, error: Exception) -> None:
        """Keep what went wrong: MkDocs itself only says that something did. What a disk refused is told in words."""
        if self._preview:
            self._preview.failed = error
        place = self._place
        self._leave()
        if place and isinstance(error, OSError) and place.is_to_blame(error):
            log.error(f"{told(error)}; {kept(place.site)}")
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
        """Build the preview anew when the catalog or the looks change, and answer while that fails."""
        if self.config.enabled and self._preview:
            self._preview.serve(server, self.config.catalog)
        return server

    @property
    def _is_in_error(self) -> bool:
        """Whether a preview shows what to mend in the place of pages."""
        return bool(self._preview and self._preview.stand_in.is_needed)
