"""Which way the arrows point: who may import whom, and where each third-party package lives."""

import ast
import subprocess
import sys
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "nesting"

FLOORS = """errors | units | tape | unitwords | masses | shapes | values | search
            | ordering | files | jobs | maps | planning | checking | schedules fronts | drawings
            | fitting liners scans walls zones repair amounts days strips
            | templates packets bench | api | commands | cli | __main__"""
"""From the ground up: a package imports only from packages on floors below its own."""

HOMES = {
    "shapely": {
        "api.values",
        "checking.dams",
        "checking.shapes",
        "shapes.geometry",
        "shapes.mending",
        "shapes.rasteroutline",
    },
    "pyclipper": {"shapes.geometry"},
    "highspy": {"search.solver"},
    "svgwrite": {"drawings.svg"},
    "click": {"cli", "commands"},
    "distributed": {"commands.fit"},
    "reportlab": {"packets.flow", "packets.pdf", "drawings.pdf"},
    "PIL": {"scans.image"},
    "ezdxf": {"liners.dxfcensus", "liners.dxfopen", "liners.dxfread", "drawings.dxf"},
}
"""The only modules, or packages, that may import a third-party package."""

WITHOUT_ARRAYS = {
    "files",
    "jobs",
    "schedules",
    "fronts",
    "drawings",
    "templates",
    "packets",
    "commands",
}
"""numpy serves the arithmetic; no array reaches files, drawings, reports or commands."""


def name_module(path):
    """Return ``drawings.svg`` for nesting/drawings/svg.py."""
    return ".".join(path.relative_to(PACKAGE).with_suffix("").parts)


FILES = sorted(PACKAGE.rglob("*.py"))
ROOTS = [path for path in FILES if path.name == "__init__.py"]
"""The package's own file and those of the packages in it, one for each subject."""
SOURCES = {name_module(path): path for path in FILES if path not in ROOTS}
SPOKEN = {f"nesting.{name}": name for name in SOURCES}
"""How an import names each module."""
FLOOR_OF = {name: floor for floor, names in enumerate(FLOORS.split("|")) for name in names.split()}


@cache
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


def package_of(name):
    """Return the package of a module; a module that lies in none is its own."""
    return name.split(".")[0]


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


def test_every_package_has_a_floor():
    """A new package gets its place in the list above, and the list names none in vain."""
    assert {package_of(name) for name in SOURCES} == set(FLOOR_OF)


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_arrows_point_down(name):
    """A module imports from its own package and from packages on lower floors, from no others."""
    own = package_of(name)
    others = {package_of(other) for other in ARROWS[name]} - {own}
    assert {other for other in others if FLOOR_OF[other] >= FLOOR_OF[own]} == set()


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_a_module_does_not_repeat_its_package(name):
    """Dotted paths name a module: ``packets.layout``, not ``packets.packetlayout``."""
    package, *rest = name.split(".")
    assert not rest or package.rstrip("s") not in rest[0]


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
        assert package_of(name) not in WITHOUT_ARRAYS
    homes = {name, package_of(name)}
    assert {package for package in packages if not homes & HOMES.get(package, set())} == set()


def test_the_search_knows_nothing_of_panels_and_polygons():
    """The search takes and gives whole numbers: it imports nothing of ours but itself."""
    inner = {other for name in SOURCES if package_of(name) == "search" for other in ARROWS[name]}
    assert {package_of(other) for other in inner} == {"search"}


def test_the_check_shares_no_code_with_the_search():
    """The checker reaches value types and its own modules, never what it is to judge."""
    reached = reach("checking.schedule") | reach("checking.calendar")
    packages = {package_of(name) for name in reached}
    ground = {"errors", "units", "tape", "unitwords", "masses"}
    assert packages <= {"checking", "values", "shapes", *ground}
    assert not {"shapes.convex", "values.bend"} & reached


@pytest.mark.parametrize("path", ROOTS[1:], ids=lambda path: path.parent.name)
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
