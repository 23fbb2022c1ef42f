"""The built wheel in an empty environment, away from the repository: what pipx would make.

By default its dependencies are lent by the environment that runs the tests; with FOOTLIGHT_SLOW set they are
installed as the wheel asks for them, which takes the package index and a minute or two.
"""

import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SLOW = pytest.mark.skipif(
    not os.environ.get("FOOTLIGHT_SLOW"), reason="slow: set FOOTLIGHT_SLOW to install it all"
)


def done(*words: object, cwd: Path, home: Path | None = None) -> str:
    env = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith(("FOOTLIGHT_", "XDG_", "PYTHON"))
    }
    if home:
        env["HOME"] = str(home)
    ended = subprocess.run(
        [str(word) for word in words],
        cwd=cwd,
        env=env,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    return ended.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    done(
        sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", folder, ROOT, cwd=folder
    )
    (built,) = folder.glob("footlight-*.whl")
    return built


def environment(folder: Path, with_pip: bool) -> Path:
    """A new environment -> its Python."""
    venv.create(folder, with_pip=with_pip, symlinks=os.name != "nt")
    return folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def tool(python: Path) -> Path:
    return python.with_name("footlight.exe" if os.name == "nt" else "footlight")


def put_to_work(python: Path, folder: Path) -> None:
    """The tool of an environment, as its user would begin, in a folder of its own."""
    work, home = folder / "prints", folder / "home"
    work.mkdir()
    home.mkdir()
    place = "import footlight, footlight_core; print(footlight.__file__, footlight_core.__file__)"
    places = done(python, "-c", place, cwd=work).split()
    assert all(str(python.parents[1]) in one and str(ROOT) not in one for one in places), places
    footlight = tool(python)
    assert "Plan a run" in done(footlight, "--help", cwd=work)
    done(footlight, "new", "reversal-print", cwd=work, home=home)
    assert "second exposure" in done(footlight, "plan", "reversal-print.toml", cwd=work, home=home)
    said = done(footlight, "demo", cwd=work, home=home)
    assert "no rule broken" in said and (work / "footlight-demo" / "time-line.png").exists()
    assert "peroxide-bleach" in done(footlight, "mix", "formulas", cwd=work, home=home)


def test_the_wheel_without_the_repository(wheel: Path, tmp_path: Path):
    python = environment(tmp_path / "environment", with_pip=False)
    done(
        sys.executable,
        "-m",
        "pip",
        "--python",
        python,
        "install",
        "--quiet",
        "--no-deps",
        wheel,
        cwd=tmp_path,
    )
    site = next((tmp_path / "environment").rglob("site-packages"))
    # A path that a .pth file names is looked through after its own, and no .pth file within it counts.
    (site / "lent.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    put_to_work(python, tmp_path)


def test_the_wheel_carries_all_of_the_firmware(wheel: Path):
    with zipfile.ZipFile(wheel) as opened:
        carried = {name for name in opened.namelist() if name.endswith(".py")}
    wanted = {
        f"footlight/_firmware/controller/{path.name}" for path in (ROOT / "firmware/controller").glob("*.py")
    }
    wanted |= {f"footlight_core/{path.name}" for path in (ROOT / "firmware/footlight_core").glob("*.py")}
    wanted |= {"footlight/_firmware/boot.py", "footlight/_firmware/main.py"}
    assert len(wanted) > 30 and wanted <= carried


def test_the_page_on_installing_names_this_wheel(wheel: Path):
    assert f"dist/{wheel.name}" in (ROOT / "docs/install.md").read_text(encoding="utf-8")


@SLOW
def test_the_wheel_with_all_that_it_asks_for(wheel: Path, tmp_path: Path):
    python = environment(tmp_path / "environment", with_pip=True)
    done(python, "-m", "pip", "install", "--quiet", f"{wheel}[bench,pictures]", cwd=tmp_path)
    put_to_work(python, tmp_path)
