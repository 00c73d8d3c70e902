from __future__ import annotations

import pytest

from workbench import paths


@pytest.mark.parametrize(
    ("find", "inside", "beside"),
    [
        pytest.param(paths.resources, "_resources", "resources", id="resources"),
        pytest.param(paths.sample_db, "_sample", "sample_db", id="sample"),
    ],
)
class TestShippedFolders:
    def test_that_the_folder_inside_the_package_comes_first(self, tmp_path, find, inside, beside):
        package = tmp_path / "workbench"
        (package / inside).mkdir(parents=True)
        (tmp_path / beside).mkdir()
        assert find(package) == package / inside

    def test_that_a_source_tree_uses_the_folder_beside_it(self, tmp_path, find, inside, beside):
        package = tmp_path / "workbench"
        package.mkdir()
        (tmp_path / beside).mkdir()
        assert find(package) == tmp_path / beside

    def test_that_the_shipped_folder_is_really_there(self, find, inside, beside):
        assert find().is_dir()


def test_that_the_makers_files_lie_outside_the_program():
    package = paths.resources().parent
    for file in (paths.default_studio(), paths.sample_studio(), paths.machine_settings()):
        assert file.is_absolute()
        assert not file.is_relative_to(package)


def test_that_the_sample_never_opens_as_the_makers_own_studio():
    assert paths.sample_studio() != paths.default_studio()
