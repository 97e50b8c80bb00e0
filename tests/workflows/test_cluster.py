"""A cluster of machines, here two processes of the engine's own: the same files to the byte."""

import hashlib
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workflows import BookCommand, run_books
from tests.samples import SAMPLES

pytestmark = [
    # the engine's own: threads and sockets that end a little after their cluster
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
    pytest.mark.filterwarnings("ignore::DeprecationWarning"),
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    # here, as it takes a second, which every process of the tests would spend
    distributed = pytest.importorskip("distributed", reason="sheetcalc[cluster] is not installed")
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as cluster:
        yield cluster.scheduler_address


def test_a_cluster_makes_the_same_files_as_one_process_alone(address: str, tmp_path: Path) -> None:
    content = {
        "room": write_book(SAMPLES["small-room.xlsx"](), load_house_style()),
        "wrong": write_book(SAMPLES["mistakes.xlsx"](), load_house_style()),
        "broken": b"PK\x03\x04 cut off",
    }
    found = {}
    for place, cluster in (("alone", None), ("cluster", address)):
        folder = tmp_path / place
        folder.mkdir()
        paths = [folder / f"{name} {at}.xlsx" for at in range(2) for name in content]
        for path in paths:
            path.write_bytes(content[path.name.split()[0]])
        reports = list(run_books(paths, BookCommand("takeoff"), workers=1, cluster=cluster))
        assert [report.path.name for report in reports] == [path.name for path in paths]
        found[place] = [
            (report.exit_code, report.findings, hashlib.sha256(path.read_bytes()).hexdigest())
            for report, path in zip(reports, paths, strict=True)
        ]
        shutil.rmtree(folder)
    assert found["cluster"] == found["alone"]
    assert [code for code, _, _ in found["cluster"]] == [0, 1, 3, 0, 1, 3]
