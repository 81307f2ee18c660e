"""The folders import only downwards, as the table in DEVELOPERS.md says.

Heavy libraries stay where they belong.
"""

import ast
import graphlib
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "termprobe"
GROUND = (
    "errors",
    "notation",
    "clock",
    "folding",
    "listing",
    "findings",
    "yamlnodes",
    "yamlvalues",
    "yamlfile",
)  # one another, downwards
ONLY_IN = {
    "serial": "link",
    "pyte": "terminal",
    "prompt_toolkit": "session",
    "yaml": "yamlnodes",
    "jinja2": "report",
    "PIL": "photo",
    "markupsafe": "report",
}


def table():
    """Return folder -> folders it may import, read from the import table of DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text()
    rows = re.findall(
        r"^\| (\w+)/ \| (.*?) \|$", text.split("## Import table")[1].split("\n## ")[0], re.M
    )
    return {folder: set(re.findall(r"\w+", allowed)) for folder, allowed in rows}


def imports_of(path):
    """Return the dotted names that the file imports, anywhere in it."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports must be absolute"
            inner = [f"{node.module}.{alias.name}" for alias in node.names]
            is_folder = (ROOT / node.module.replace(".", "/")).is_dir()
            yield from inner if is_folder else [node.module]


def edges():
    for path in sorted(PACKAGE.rglob("*.py")):
        folder = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
        for name in imports_of(path):
            yield path, folder, name.split(".")


def crossings():
    """Yield (file, folder, folder imported) for each import from one folder of another.

    Imports for types alone are among them.
    """
    for path, folder, words in edges():
        is_other = words[0] == "termprobe" and words[1:2] not in ([folder], ["__version__"])
        if is_other and words[1] not in GROUND and folder not in GROUND:
            yield path, folder, words[1]


def test_folders_import_only_what_the_table_allows():
    allowed = table()
    wrong = [
        f"{path.relative_to(ROOT)} imports {other}"
        for path, folder, other in crossings()
        if other not in allowed.get(folder, ())
    ]
    assert not wrong, "\n".join(wrong)


def test_the_table_allows_only_what_is_needed():
    used = {folder: set() for folder in table()}
    for _, folder, other in crossings():
        used[folder].add(other)
    assert used == table()


def test_no_module_imports_itself_through_others():
    modules = {
        ".".join(path.relative_to(ROOT).with_suffix("").parts) for path in PACKAGE.rglob("*.py")
    }
    graph = {}
    for path, _, words in edges():
        name = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        target = ".".join(words)
        if target in modules:
            graph.setdefault(name, set()).add(target)
    tuple(graphlib.TopologicalSorter(graph).static_order())


def test_every_folder_is_in_the_table_and_the_table_has_no_cycle():
    folders = {path.name for path in PACKAGE.iterdir() if (path / "__init__.py").exists()}
    assert folders == set(table())
    tuple(graphlib.TopologicalSorter(table()).static_order())


def test_ground_files_import_only_ground_files_below_them():
    graph = {name: set() for name in GROUND}
    for _, folder, words in edges():
        if folder in GROUND and words[0] == "termprobe":
            assert words[1] in GROUND, f"{folder} imports {words}"
            graph[folder].add(words[1])
    tuple(graphlib.TopologicalSorter(graph).static_order())


def test_each_heavy_library_is_imported_by_one_folder_only():
    wrong = [
        f"{path.relative_to(ROOT)} imports {words[0]}"
        for path, folder, words in edges()
        if words[0] in ONLY_IN and not folder.startswith(ONLY_IN[words[0]])
    ]
    assert not wrong, "\n".join(wrong)


def test_what_unix_alone_has_is_imported_by_the_files_that_need_it_when_they_are_needed():
    """Those files are imported inside functions: on another system nothing misses them."""
    of_unix = {"fcntl", "grp", "pty", "pwd", "resource", "termios", "tty"}
    found, importers = set(), []
    for path in sorted(PACKAGE.rglob("*.py")):
        name = path.relative_to(PACKAGE).as_posix()
        for statement in ast.parse(path.read_text()).body:
            named = names_of(statement)
            if named & of_unix:
                found.add(name)
            if named & {"termprobe.link.tty", "termprobe.board.pty_end"}:
                importers.append(name)
    assert found == {"link/tty.py", "board/pty_end.py"}
    assert importers == []


def names_of(statement):
    """Return the dotted names that one statement imports."""
    if isinstance(statement, ast.Import):
        return {alias.name for alias in statement.names}
    if isinstance(statement, ast.ImportFrom):
        inner = {f"{statement.module}.{alias.name}" for alias in statement.names}
        return inner | {statement.module}
    return set()


def test_init_files_hold_a_docstring_and_nothing_else():
    for path in PACKAGE.rglob("__init__.py"):
        body = ast.parse(path.read_text()).body
        rest = [
            node
            for node in body[1:]
            if not (isinstance(node, ast.Assign) and node.targets[0].id == "__version__")
        ]
        assert isinstance(body[0], ast.Expr) and not rest, path


def test_version_loads_no_heavy_library():
    heavy = ("serial", "pyte", "prompt_toolkit", "yaml", "argparse", "jinja2", "PIL")
    code = (
        "import sys; from termprobe.cli.main import main; main(['--version']); "
        f"sys.exit(' '.join(m for m in {heavy!r} if m in sys.modules) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, ""), done.stderr
