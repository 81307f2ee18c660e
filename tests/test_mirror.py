"""A newcomer finds the test of a module: beside its name, or where tests/elsewhere.txt says."""

from helpers.paths import ROOT, TESTS

PACKAGE = ROOT / "termprobe"


def modules():
    for path in sorted(PACKAGE.rglob("*.py")):
        if path.name != "__init__.py":
            yield path.relative_to(PACKAGE).with_suffix("").as_posix()


def elsewhere():
    """Return module -> test file, by the lines `module  test` of tests/elsewhere.txt."""
    text = (TESTS / "elsewhere.txt").read_text(encoding="utf-8")
    rows = [line.split() for line in text.split("\n") if line.strip() and line[0] != "#"]
    return dict(rows)


def own_test(module):
    folder, _, name = module.rpartition("/")
    return TESTS / folder / f"test_{name}.py"


def test_each_module_has_its_test_or_says_which_one_covers_it():
    told = elsewhere()
    missing = [module for module in modules() if not own_test(module).exists()]
    assert missing == sorted(told), "the modules without a test beside their name"


def test_the_tests_named_instead_exist_and_speak_of_the_module():
    wrong = []
    for module, test in elsewhere().items():
        name = module.rpartition("/")[2]
        path = TESTS / test
        if not path.exists() or name not in path.read_text(encoding="utf-8"):
            wrong.append(f"{module}: {test}")
    assert not wrong, "\n".join(wrong)
