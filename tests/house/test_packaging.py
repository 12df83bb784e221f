"""What is shipped: the list of packages, and the data inside wheel, sdist and editable install."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
HOMES = {"compiler": "hotset", "schemas": "hotset.schemas", "templates": "hotset.templates"}
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]
DATA_KINDS = {
    package: tuple(pattern.removeprefix("**/*") for pattern in patterns)
    for package, patterns in SETTINGS["package-data"].items()
    if package != "hotset"
}


def package_folders() -> set[str]:
    found = set()
    for folder, package in HOMES.items():
        for init in (ROOT / folder).rglob("__init__.py"):
            inner = init.parent.relative_to(ROOT / folder).parts
            found.add(".".join((package, *inner)))
    return found


def data_files() -> set[str]:
    """Files that the installed package reads, by their path inside the wheel."""
    found = {"hotset/py.typed"}
    for folder, package in HOMES.items():
        for kind in DATA_KINDS.get(package, ()):
            for file in (ROOT / folder).rglob(f"*{kind}"):
                found.add(f"{package.replace('.', '/')}/{file.relative_to(ROOT / folder).as_posix()}")
    return found


def test_the_list_of_packages_is_the_folders() -> None:
    listed = SETTINGS["packages"]
    assert listed == sorted(listed)
    assert set(listed) == package_folders()


def test_every_folder_with_code_is_a_package() -> None:
    for folder in HOMES:
        for module in (ROOT / folder).rglob("*.py"):
            assert (module.parent / "__init__.py").exists(), f"{module} lies in a folder without __init__.py"


def test_every_kind_of_data_is_listed() -> None:
    unlisted = []
    for folder, package in HOMES.items():
        kinds = (".py", ".md", ".typed", *DATA_KINDS.get(package, ()))
        for file in (ROOT / folder).rglob("*"):
            if file.is_file() and "__pycache__" not in file.parts and file.suffix not in kinds:
                unlisted.append(str(file.relative_to(ROOT)))
    assert unlisted == []


@pytest.fixture(scope="module")
def copied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The tree in a repository of its own: what an sdist holds is what is tracked."""
    tree = tmp_path_factory.mktemp("packaging") / "tree"
    strays = shutil.ignore_patterns(
        ".git", ".venv", "build", "dist", "out", "*.egg-info", "__pycache__", ".*_cache", ".hypothesis"
    )
    shutil.copytree(ROOT, tree, symlinks=True, ignore=strays)
    who = ["-c", "user.name=tests", "-c", "user.email=tests@example.org", "-c", "commit.gpgsign=false"]
    for command in (["init", "-q"], ["add", "-A"], [*who, "commit", "-q", "-m", "as it is"]):
        subprocess.run(["git", *command], cwd=tree, check=True, capture_output=True)
    return tree


def build(tree: Path, kind: str) -> Path:
    out = tree.parent / kind
    done = subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", f"--{kind}", "--outdir", str(out)],
        cwd=tree,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    (made,) = out.iterdir()
    return made


def test_wheel_holds_code_and_data(copied: Path) -> None:
    with zipfile.ZipFile(build(copied, "wheel")) as wheel:
        names = set(wheel.namelist())
    assert data_files() <= names
    assert {f"{package.replace('.', '/')}/__init__.py" for package in package_folders()} <= names


def test_sdist_holds_everything_tracked(copied: Path) -> None:
    with tarfile.open(build(copied, "sdist")) as sdist:
        names = {name.partition("/")[2] for name in sdist.getnames()}
    listing = subprocess.run(["git", "ls-files"], cwd=copied, check=True, capture_output=True, text=True).stdout
    tracked = {name for name in listing.split("\n") if name}
    links = {name for name in tracked if (copied / name).is_symlink()}  # the type checkers' way in, of no use elsewhere
    assert tracked - links <= names


def test_editable_install_finds_the_data(copied: Path) -> None:
    site = copied.parent / "site"
    hook = "import sys; from setuptools import build_meta; print('made:', build_meta.build_editable(sys.argv[1]))"
    wheels = copied.parent / "editable"
    wheels.mkdir()
    subprocess.run([sys.executable, "-c", hook, str(wheels)], cwd=copied, check=True, capture_output=True)
    (wheel,) = wheels.iterdir()
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(site)
    ask = (
        "import site, sys; site.addsitedir(sys.argv[1])\n"
        "from importlib.resources import files\n"
        "import hotset.cli, hotset.schemas, hotset.templates\n"
        "print(hotset.cli.__file__)\n"
        "for package in ('hotset.schemas', 'hotset.templates'):\n"
        "    print(files(package).joinpath('__init__.py').is_file())\n"
    )
    done = subprocess.run([sys.executable, "-I", "-S", "-c", ask, str(site)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    where, *found = done.stdout.split("\n")[:3]
    assert Path(where).is_relative_to(copied)
    assert found == ["True", "True"]
