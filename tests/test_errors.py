from __future__ import annotations

from workbench.errors import WorkbenchError


def test_that_an_error_reads_as_what_happened_and_what_helps():
    error = WorkbenchError("The file is locked.", "Close the other window.", "database is locked")
    assert str(error) == "The file is locked. Close the other window."


def test_that_an_error_without_a_remedy_ends_after_its_sentence():
    assert str(WorkbenchError("The file is not there.")) == "The file is not there."


def test_that_the_technical_detail_stays_out_of_the_sentence():
    error = WorkbenchError("The file is locked.", detail="errno 11")
    assert "errno" not in str(error)
    assert error.detail == "errno 11"
