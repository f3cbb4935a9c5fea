"""Which way the arrows point: who may import whom, and where each third-party package lives."""

import ast
import subprocess
import sys
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "nesting"

LEVELS = {
    0: "errors units",
    1: "geometry arcs convex masses curves splines onesided rasters rasteroutline",
    2: """liner bed panels tolerances castsizes material shopdays linerfound pieces mending
          heightmap groundbow stairs gaps""",
    3: "job casts workdays castcalendar motif chains",
    4: """ground positions places layers candidates sizes keepoff sizerange dams beds sizeledges
          sizeregion areas findings check check_areas check_counts check_dams check_ornaments
          check_panels check_rects check_shapes wall wallpath weights mixes rubber costs
          calendarcheck ribs zonefield zonechoices zoneneeds groundplane scanornaments scanzones
          sidecells sizehunt zonespans zonesharing patch""",
    5: "search",
    6: """settle reasons slopes bedplan schedule blockers changes nearest fits quantities
          workload castdays zonemodel zoneplaces zonerooms zonereasons zoning zonetrade zoneuses
          repair scanscale scanimage scanmesh scanliner soundcalendar scanshapes zoneregion
          zonecount zonecover zonefit zonelook""",
    7: """tomlfile filekinds findingtext textfile tomltext tomlcheck readers castrules jobtables
          jobfile areafigures scheduletables schedulefile drawing figures terrain key labels
          lettering masking measured names ordinates overview sheet strip report setout tables
          tolerancetable castreport wallfile walldrawing wallreport sizetext fitreport
          fitdrawing cautions quantitytables quantityreport mixreport rubberreport quantityfile
          rangereport rangechart datereaders calendartables calendarfile calendarreport
          calendardrawing calendarsheet hatching icsfile soundschedule papers styles crop tiles
          sheets fullsize template ribtemplate tilelabels tilestrip tiledrawing templatereport
          tryout packetparts packetfigure packetlayout packetproof packetcalendar packet
          jobwriting motiffile zonechart zonedrawing zonereport repairreport svgtree svgpath
          svgshapes svgpage svgread dxfentities dxfopen dxfread drawingoptions drawnshapes
          linernames linerbuild drawingread linertoml linerreport linerdrawing scanfile
          scanreport scandrawing svgstyles dxfcensus grounddrawing repairdrawing""",
    8: """svg planfiles output console screening calendarfiles pdf templatefiles aside tryserver
          packethtml packetpdf packetfiles zonefiles linersvg dxfwrite packetflow repairfiles""",
    9: """cli cli_files cli_help cli_wall cli_fit cli_quantities cli_range cli_calendar
          cli_template cli_page cli_packet cli_zones cli_liner cli_scan __main__ cli_options
          cli_say""",
}
"""Every module under its level; all of ``search`` is one level."""

HOMES = {
    "shapely": {"check_dams", "check_shapes", "geometry", "mending", "rasteroutline"},
    "pyclipper": {"geometry"},
    "highspy": {"search.solver"},
    "svgwrite": {"svg"},
    "click": {
        "cli",
        "cli_calendar",
        "cli_files",
        "cli_fit",
        "cli_help",
        "cli_liner",
        "cli_options",
        "cli_packet",
        "cli_page",
        "cli_quantities",
        "cli_range",
        "cli_say",
        "cli_scan",
        "cli_template",
        "cli_wall",
        "cli_zones",
    },
    "distributed": {"cli_fit"},
    "reportlab": {"packetflow", "packetpdf", "pdf"},
    "PIL": {"scanimage"},
    "ezdxf": {"dxfcensus", "dxfopen", "dxfread", "dxfwrite"},
}
"""The only modules that may import a third-party package."""

JUDGED = """convex ground positions layers candidates sizes keepoff sizerange dams settle slopes
            bedplan schedule changes nearest fits sizeledges sizeregion sidecells sizehunt gaps"""
"""What the checker must not rest on, besides the search itself."""

ARRAYS_BELOW = 7
"""numpy serves the arithmetic; no array reaches files, drawings, reports or commands."""


def name_module(path):
    """Return ``masking`` for nesting/drawings/masking.py, ``search.solver`` within the search."""
    *folders, name = path.relative_to(PACKAGE).with_suffix("").parts
    return f"search.{name}" if folders == ["search"] else name


FILES = sorted(PACKAGE.rglob("*.py"))
ROOTS = [path for path in FILES if path.name == "__init__.py"]
"""The package's own file and those of the packages in it, one for each subject."""
SOURCES = {name_module(path): path for path in FILES if path not in ROOTS}
SPOKEN = {
    ".".join(("nesting", *path.relative_to(PACKAGE).with_suffix("").parts)): name
    for name, path in SOURCES.items()
}
"""How an import names each module."""
LEVEL_OF = {name: level for level, names in LEVELS.items() for name in names.split()}


def list_imports(path):
    """Return every module imported anywhere in the file, inside functions too."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports name the whole path"
            found.add(node.module)
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def list_inner_imports(path):
    """Return the modules of our own that the file imports."""
    return {SPOKEN[name] for name in list_imports(path) if name in SPOKEN}


def level_of(name):
    """Return the level of a module."""
    return LEVEL_OF[name.split(".")[0]]


def list_third_party(path):
    """Return the packages the file imports that are neither ours nor Python's own."""
    tops = {name.split(".")[0] for name in list_imports(path)}
    return tops - set(sys.stdlib_module_names) - {"nesting"}


ARROWS = {name: list_inner_imports(path) for name, path in SOURCES.items()}


def reach(name):
    """Return the module and all it imports, directly or not."""
    found, open_names = set(), [name]
    while open_names:
        name = open_names.pop()
        if name not in found:
            found.add(name)
            open_names += ARROWS[name]
    return found


def test_every_module_has_a_level():
    """A new module gets its place in the table above, and the table names no module in vain."""
    assert {name.split(".")[0] for name in SOURCES} == set(LEVEL_OF)
    assert len(SOURCES) == len(FILES) - len(ROOTS), "two modules of one name"


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_arrows_point_down(name):
    """A module imports from lower levels, or from its own."""
    assert {other for other in ARROWS[name] if level_of(other) > level_of(name)} == set()


def test_no_arrow_leads_back():
    """No module imports itself by way of others."""
    try:
        order = list(TopologicalSorter(ARROWS).static_order())
    except CycleError as error:
        pytest.fail(f"import cycle: {error.args[1]}")
    assert set(order) == set(SOURCES)


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_third_party_packages_stay_at_home(name):
    """Each third-party package is imported in its home and nowhere else."""
    packages = list_third_party(SOURCES[name])
    if "numpy" in packages:
        packages.remove("numpy")
        assert level_of(name) < ARRAYS_BELOW
    assert {package for package in packages if name not in HOMES.get(package, ())} == set()


def test_the_search_knows_nothing_of_panels_and_polygons():
    """The search takes and gives whole numbers: it imports nothing of ours but itself."""
    inner = {other for name in SOURCES if name.startswith("search") for other in ARROWS[name]}
    assert {other for other in inner if other.split(".")[0] != "search"} == set()


def test_the_check_shares_no_code_with_the_search():
    """The checker reaches value types and its own modules, never what it is to judge."""
    reached = reach("check")
    assert "casts" in reached
    assert {
        name for name in reached if name in JUDGED.split() or name.startswith("search")
    } == set()


@pytest.mark.parametrize("path", ROOTS, ids=lambda path: path.parent.name)
def test_the_root_of_a_package_does_nothing(path):
    """The file of a package is a docstring."""
    (only,) = ast.parse(path.read_text(encoding="utf-8")).body
    assert isinstance(only.value.value, str)


def test_importing_the_package_runs_nothing():
    """It brings in no other module."""
    script = "import sys; old = set(sys.modules); import nesting; print(*set(sys.modules) - old)"
    ended = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert ended.stdout.split() == ["nesting"]
