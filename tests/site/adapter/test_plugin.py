"""The MkDocs adapter: what stops a build, what it leaves alone, what it watches."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest
from folders import DEMO, ROOT
from mkdocs.config import load_config
from mkdocs.exceptions import Abort
from mkdocs.structure.files import Files
from site_building import build, configuration

from build_tools.catalog.finding import Finding, Spot
from build_tools.checks import runner


def snapshot(folder: Path) -> dict[str, str]:
    return {
        p.relative_to(folder).as_posix(): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


def test_a_failing_check_leaves_the_old_site(
    demo: Path, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    config = configuration(tmp_path, demo)
    before = snapshot(build(config))
    file = demo / "exercises" / "crate-curl.yaml"
    file.write_text(file.read_text().replace("equipment: [crate]", "equipmnt: [crate]"))
    with pytest.raises(Abort):
        build(config)
    assert "the catalog did not pass its checks" in caplog.text
    assert snapshot(tmp_path / "site") == before
    line = next(r.getMessage() for r in caplog.records if "unknown-key" in r.getMessage())
    assert (
        "exercises/crate-curl.yaml:3:1: error[unknown-key]" in line
        and "did you mean `equipment`" in line
    )


def test_warnings_fail_only_under_strict(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    warning = runner.GradedFinding(
        Finding("review-due", Spot("catalog/x.yaml", 3, 4), "is old", "review it"), "warning"
    )
    monkeypatch.setattr(runner, "run", lambda *args, **kwargs: [warning])
    config = configuration(tmp_path, DEMO)
    assert (build(config) / "index.html").is_file()
    assert "catalog/x.yaml:3:4: warning[review-due]: is old; help: review it" in caplog.text
    before = snapshot(tmp_path / "site")
    for strict, options in ((True, {}), (False, {"strict": True})):
        changed = configuration(
            tmp_path, DEMO, plugins=[{"handbook": {"catalog": str(DEMO), **options}}]
        )
        caplog.clear()
        with pytest.raises(Abort):
            build(changed, strict=strict)
        assert "0 errors, 1 warning" in caplog.text
        assert snapshot(tmp_path / "site") == before


def test_a_due_review_stops_no_strict_build(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """In 2030 every review of the demo is due. MkDocs counts warnings under strict, so a notice must not be one of them."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1893456000")  # 2030-01-01
    caplog.set_level("INFO")
    config = configuration(
        tmp_path, DEMO, plugins=[{"handbook": {"catalog": str(DEMO), "strict": True}}]
    )
    assert (build(config, strict=True) / "index.html").is_file()
    told = [
        record
        for record in caplog.records
        if "notice[review-due]: the review was due on" in record.getMessage()
    ]
    assert len(told) == 4 and {record.levelname for record in told} == {"INFO"}


def test_a_claim_that_the_numbers_contradict_stops_the_build(
    demo: Path, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    config = configuration(tmp_path, demo)
    before = snapshot(build(config))
    file = demo / "exercises" / "crate-curl.yaml"
    file.write_text(
        file.read_text().replace(
            "more_than: {exercise: cable-curl}", "less_than: {exercise: cable-curl}"
        )
    )
    # A difference that one study like it would not turn: four times as much gained, of which the paper says p < 0.01.
    study = demo / "studies" / "wick2030.yaml"
    study.write_text(study.read_text().replace("change_percent: 14", "change_percent: 36"))
    with pytest.raises(Abort):
        build(config)
    assert "exercises/crate-curl.yaml:11:5: error[contradicted-claim]" in caplog.text
    assert snapshot(tmp_path / "site") == before


def test_stale_conclusions_warn_in_a_preview_and_fail_under_strict(
    demo: Path, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    study = demo / "studies" / "glow2031.yaml"
    study.write_text(study.read_text().replace("mean: 61", "mean: 63"))
    config = configuration(tmp_path, demo)
    page = build(config) / "exercises" / "cable-curl" / "index.html"
    assert page.is_file(), "whoever edits a study sees the page"
    assert (
        "catalog/conclusions:1:1: warning[stale-conclusions]: " in caplog.text
        and f"run `handbook conclude --catalog {demo}`" in caplog.text
    )
    with pytest.raises(Abort):
        build(config, strict=True)


def test_nothing_is_written_beside_the_site(demo: Path, tmp_path: Path) -> None:
    before, content = snapshot(demo), snapshot(ROOT / "content")
    build(configuration(tmp_path, demo))
    assert snapshot(demo) == before and snapshot(ROOT / "content") == content


def test_pages_are_virtual_and_edited_at_their_yaml(tmp_path: Path) -> None:
    config = load_config(str(configuration(tmp_path, DEMO)))
    config.plugins.on_pre_build(config=config)
    files = config.plugins.on_files(Files([]), config=config)
    page = files.get_file_from_path("exercises/crate-curl.md")
    assert page.abs_src_path is None and page.url == "exercises/crate-curl/"
    assert (Path(config.docs_dir) / page.edit_uri).resolve() == (
        DEMO / "exercises" / "crate-curl.yaml"
    ).resolve()
    assert files.get_file_from_path("rules.md").edit_uri is None


def test_a_content_page_of_the_same_name_is_refused(
    demo: Path, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    docs = tmp_path / "docs"
    docs.mkdir()
    (docs / "rules.md").write_text("# Mine\n")
    with pytest.raises(Abort):
        build(configuration(tmp_path, demo, docs_dir=str(docs), nav=None))
    assert "rules.md stands in the content folder" in caplog.text


def test_disabled_it_does_nothing(tmp_path: Path) -> None:
    docs = tmp_path / "docs"
    docs.mkdir()
    (docs / "index.md").write_text("# Mine\n")
    config = configuration(
        tmp_path,
        DEMO,
        docs_dir=str(docs),
        nav=None,
        extra_css=[],
        plugins=[{"handbook": {"enabled": False, "catalog": str(DEMO)}}],
    )
    assert not (build(config) / "exercises").exists()


def test_what_pages_need_is_set_and_what_a_handbook_says_is_kept(tmp_path: Path) -> None:
    config = load_config(
        str(
            configuration(
                tmp_path,
                DEMO,
                theme={"name": "material", "features": ["navigation.top"], "font": {"text": "Any"}},
                markdown_extensions=[{"toc": {"toc_depth": 2}}, "footnotes"],
                extra_css=["mine.css"],
                extra={"mine": 1},
            )
        )
    )
    config.plugins.on_config(config)
    assert config.theme["font"] is False, "no request leaves the site"
    assert config.theme["features"] == ["navigation.top", "navigation.tabs"]
    assert config.theme.dirs[0].endswith("theme") and config.theme["logo"] == "assets/mark.svg"
    assert config.extra_css[0] == "assets/handbook.css" and config.extra_css[-1] == "mine.css"
    assert {"attr_list", "md_in_html", "footnotes"} <= set(config.markdown_extensions)
    assert config.mdx_configs["toc"] == {"toc_depth": 2, "title": "On this page"}
    assert config.extra == {"mine": 1, "generator": False}


def test_own_templates_stand_before_the_handbooks(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    theme = {"name": "material", "custom_dir": str(tmp_path / "mine"), "logo": "my/logo.svg"}
    config = load_config(str(configuration(tmp_path, DEMO, theme=theme)))
    config.plugins.on_config(config)
    assert config.theme.dirs[0] == str(tmp_path / "mine")
    assert config.theme.dirs[1].endswith(os.path.join("site", "theme"))
    assert config.theme["logo"] == "my/logo.svg"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"theme": "readthedocs"}, "the pages are made for another theme; write `theme: material`"),
        ({"site_name": "Another"}, "`site_name` is `Another`, and the title in handbook.yaml is"),
        ({"use_directory_urls": False}, "need `use_directory_urls: true`"),
    ],
    ids=["theme", "title", "addresses"],
)
def test_what_it_cannot_set_is_demanded(
    tmp_path: Path, changes: dict[str, object], words: str, caplog: pytest.LogCaptureFixture
) -> None:
    with pytest.raises(Abort):
        build(configuration(tmp_path, DEMO, **changes), strict=True)
    assert words in caplog.text
    assert not (tmp_path / "site").exists()


def test_without_strict_a_demand_is_a_warning(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    assert (build(configuration(tmp_path, DEMO, site_name="Another")) / "index.html").is_file()
    assert ["WARNING"] == [
        record.levelname for record in caplog.records if "`site_name` is" in record.getMessage()
    ]


def test_the_preview_watches_the_catalog(tmp_path: Path) -> None:
    watched: list[str] = []

    class Server:
        def watch(self, path: str) -> None:
            watched.append(path)

        def get_app(self) -> None:
            """It answers with nothing."""

        builder = None

    config = load_config(str(configuration(tmp_path, DEMO)))
    plugin = config.plugins["handbook"]
    plugin.on_startup(command="serve", dirty=False)
    plugin.on_serve(Server(), config=config, builder=None)
    assert str(DEMO) in watched and any(path.endswith("templates") for path in watched)


@pytest.mark.parametrize(("command", "keeps"), [("build", True), ("serve", False)])
def test_nothing_is_kept_on_devices_from_a_preview(
    tmp_path: Path, command: str, keeps: bool
) -> None:
    config = load_config(str(configuration(tmp_path, DEMO)))
    plugin = config.plugins["handbook"]
    plugin.on_startup(command=command, dirty=False)
    plugin.on_pre_build(config=config)
    assert plugin._book.shelf.site.offline is keeps


def test_two_builds_are_identical(tmp_path: Path) -> None:
    sites = []
    for seed in ("1", "2"):
        folder = tmp_path / seed
        folder.mkdir()
        environment = {**os.environ, "PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": "1796083200"}
        subprocess.run(
            [
                sys.executable,
                "-m",
                "mkdocs",
                "build",
                "--quiet",
                "--strict",
                "-f",
                str(configuration(folder, DEMO)),
            ],
            check=True,
            env=environment,
            cwd=folder,
        )
        sites.append(snapshot(folder / "site"))
    assert sites[0] == sites[1]


@pytest.mark.parametrize("module", ["book", "folder"])
def test_the_core_does_not_know_the_generator(module: str) -> None:
    code = f"import sys, build_tools.site.{module}; sys.exit(any(name.partition('.')[0] == 'mkdocs' for name in sys.modules))"
    subprocess.run([sys.executable, "-c", code], check=True)


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_link_out_of_the_content_folder_leaves_the_last_site(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    content = tmp_path / "content"
    content.mkdir()
    (content / "index.md").write_text("# Home\n", encoding="utf-8")
    config = configuration(tmp_path, DEMO, docs_dir=str(content), nav=None)
    before = snapshot(build(config))
    (content / "etc").symlink_to("/etc")
    with pytest.raises(Abort):
        build(config)
    assert "etc is a link out of the folder" in caplog.text and "stays as it was" in caplog.text
    assert snapshot(tmp_path / "site") == before


def test_settings_that_the_theme_prints_are_escaped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The theme prints them as they stand; markup in them ran."""
    said = {
        name: f"\"><script>alert('{name}')</script> & more"
        for name in ("site_name", "site_author", "site_description")
    }
    site = build(configuration(tmp_path, DEMO, **said))
    for page in ("index.html", "404.html", "exercises/crate-curl/index.html"):
        text = (site / page).read_text(encoding="utf-8")
        assert "<script>alert" not in text and "&lt;script&gt;alert(&#x27;site_name&#x27;)" in text
